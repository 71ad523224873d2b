export default function OffsetsDialog(_: { boat: unknown; fromInside: boolean }) {
  return null;
}
