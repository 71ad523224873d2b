import type { JSX } from 'react';
import { useApp } from '../store/app';

/** Says what was refused and why; the open boat stays as it is. */
export function ProblemBanner(): JSX.Element | null {
  const problem = useApp((state) => state.problem);
  const dismiss = useApp((state) => state.dismissProblem);
  if (!problem) return null;
  return (
    <div className="problem" role="alert">
      <button type="button" className="button plain close" onClick={dismiss}>
        Close
      </button>
      <h2 className="title">{problem.title}</h2>
      <ul>
        {problem.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}
