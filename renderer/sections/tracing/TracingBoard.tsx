export default function TracingBoard(_: { boat: unknown }) {
  return null;
}
