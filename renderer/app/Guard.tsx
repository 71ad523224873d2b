import { Component, type ErrorInfo, type JSX, type ReactNode } from 'react';
import { useApp } from '../store/app';
import { commandOf } from './commands';

interface Props {
  /** What stopped, in words: `The drawing board`. */
  readonly name: string;
  readonly children: ReactNode;
}
interface State {
  readonly message: string | null;
  readonly where: string;
}

/** A part of the window that fails says so in its place; the boat and the rest of the window stay. */
export class Guard extends Component<Props, State> {
  override state: State = { message: null, where: '' };
  private forget: (() => void) | undefined;

  static getDerivedStateFromError(error: unknown): Partial<State> {
    return { message: error instanceof Error ? error.message : String(error) };
  }

  override componentDidCatch(_error: unknown, { componentStack }: ErrorInfo): void {
    this.setState({ where: componentStack?.trim().split('\n')[0]?.trim() ?? '' });
    // What cannot be shown may be shown again once the boat or what is picked is another.
    const { boat, selection } = useApp.getState();
    this.forget?.();
    this.forget = useApp.subscribe((now) => {
      if (now.boat !== boat || now.selection !== selection) this.again();
    });
  }

  override componentWillUnmount(): void {
    this.forget?.();
  }

  private again = (): void => {
    this.forget?.();
    this.setState({ message: null, where: '' });
  };

  override render(): ReactNode {
    const { message, where } = this.state;
    return message === null ? (
      this.props.children
    ) : (
      <Stopped name={this.props.name} lines={[message, where].filter((line) => line !== '')} again={this.again} />
    );
  }
}

function Stopped({
  name,
  lines,
  again,
}: {
  readonly name: string;
  readonly lines: readonly string[];
  again(): void;
}): JSX.Element {
  const act = (id: string): void => commandOf(id)?.run();
  return (
    <div className="stopped" role="alert">
      <h2 className="title">{name} stopped: a fault of the program</h2>
      <p>The boat is as it was. Save it, then take the last edit back or try again.</p>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <div className="stopped-acts">
        <button type="button" className="button" onClick={() => act('saveAs')}>
          Save as
        </button>
        <button type="button" className="button" onClick={() => act('undo')}>
          Undo
        </button>
        <button type="button" className="button" onClick={again}>
          Try again
        </button>
      </div>
    </div>
  );
}
