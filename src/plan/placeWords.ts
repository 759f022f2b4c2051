/** How people are told of a place: its name, or its coordinates. */
export const placeWords = ({
  name,
  latitude,
  longitude,
}: {
  readonly name?: string | null;
  readonly latitude: number;
  readonly longitude: number;
}): string => name ?? `${latitude}, ${longitude}`;
