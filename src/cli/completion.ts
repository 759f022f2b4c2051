import { Argument, type Command } from "commander";
import { emit } from "./emit.ts";

type Shell = "bash" | "zsh" | "fish";

export function addCompletion(program: Command): void {
  program
    .command("completion")
    .description("print a completion script for a shell")
    .addArgument(new Argument("<shell>", "bash, zsh or fish").choices(["bash", "zsh", "fish"]))
    .addHelpText(
      "after",
      '\nFor bash: eval "$(lacunar completion bash)"; for zsh the same with zsh; for fish: lacunar completion fish | source',
    )
    .action(async (shell: Shell) => {
      await emit({ bash, zsh, fish }[shell](describe(program)), {});
    });
}

interface Described {
  readonly name: string;
  readonly about: string;
  readonly takesFile: boolean;
  readonly options: readonly {
    flags: readonly string[];
    about: string;
    takesFile: boolean;
    takesValue: boolean;
  }[];
}

/** Read off the commands themselves, so that the script never lags behind them. */
function describe(program: Command): Described[] {
  const shared = program.options;
  return program.commands.map((command) => ({
    name: command.name(),
    about: command.description().replaceAll("'", "’"),
    takesFile: command.registeredArguments.some(
      (argument) => argument.name() === "plan" || argument.name() === "file",
    ),
    options: [...command.options, ...shared].map((option) => ({
      flags: [option.short, option.long].filter((flag) => flag !== undefined && flag !== null),
      about: option.description.replaceAll("'", "’"),
      takesFile: option.required && /file|folder/.test(option.flags),
      takesValue: option.required,
    })),
  }));
}

const bash = (commands: readonly Described[]): string => `# bash completion for lacunar
_lacunar() {
  local word="\${COMP_WORDS[COMP_CWORD]}"
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W '${commands.map((command) => command.name).join(" ")}' -- "$word"))
    return
  fi
  local options=''
  case "\${COMP_WORDS[1]}" in
${commands.map((command) => `    ${command.name}) options='${command.name === "completion" ? "bash zsh fish " : ""}${command.options.flatMap((option) => option.flags).join(" ")}' ;;`).join("\n")}
  esac
  case "$word" in
    -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;;
    *) if [ "\${COMP_WORDS[1]}" = completion ]; then COMPREPLY=($(compgen -W "$options" -- "$word")); else COMPREPLY=($(compgen -f -- "$word")); fi ;;
  esac
}
complete -o filenames -F _lacunar lacunar
`;

const zsh = (commands: readonly Described[]): string => `#compdef lacunar
# zsh completion for lacunar
_lacunar() {
  local -a commands
  commands=(
${commands.map((command) => `    '${command.name}:${command.about.replaceAll(":", "\\:")}'`).join("\n")}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  case "$words[2]" in
${commands
  .map((command) => {
    const specs = command.options.flatMap((option) =>
      option.flags.map(
        (flag) =>
          `'${flag}[${option.about.replaceAll("[", "(").replaceAll("]", ")")}]${option.takesFile ? ":file:_files" : option.takesValue ? ":value:" : ""}'`,
      ),
    );
    const positional =
      command.name === "completion"
        ? "'2:shell:(bash zsh fish)'"
        : command.takesFile
          ? "'2:file:_files'"
          : "";
    return `    ${command.name}) shift words; (( CURRENT-- )); _arguments ${[...specs, positional.replace("'2:", "'1:")].filter(Boolean).join(" ")} ;;`;
  })
  .join("\n")}
  esac
}
compdef _lacunar lacunar
`;

const fish = (commands: readonly Described[]): string => {
  const lines = ["# fish completion for lacunar", "complete -c lacunar -f"];
  for (const command of commands) {
    lines.push(`complete -c lacunar -n __fish_use_subcommand -a ${command.name} -d '${command.about}'`);
    const when = `-n '__fish_seen_subcommand_from ${command.name}'`;
    if (command.takesFile) lines.push(`complete -c lacunar ${when} -F`);
    if (command.name === "completion") lines.push(`complete -c lacunar ${when} -a 'bash zsh fish'`);
    for (const option of command.options) {
      const flags = option.flags
        .map((flag) => (flag.startsWith("--") ? `-l ${flag.slice(2)}` : `-s ${flag.slice(1)}`))
        .join(" ");
      lines.push(
        `complete -c lacunar ${when} ${flags}${option.takesValue ? " -r" : ""}${option.takesFile ? " -F" : ""} -d '${option.about}'`,
      );
    }
  }
  return `${lines.join("\n")}\n`;
};
