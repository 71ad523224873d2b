import type { RehearsalStep, ServiceReport, TaskReport } from '@core/engine/service/service-report';

/** A task as it could be told: the bowl of a strainer, read in by an arm through a lid. */
export const taskReport = (part: Partial<TaskReport> & Pick<TaskReport, 'thing' | 'service'>): TaskReport => ({
  key: `${part.thing}/${part.service}`,
  isPart: true,
  task: 'basket',
  verdict: 'byHand',
  closeCall: null,
  breaksDemand: null,
  reason: 'found',
  enterNext: null,
  posture: 'lean',
  standing: null,
  openings: [],
  hands: 'right',
  reach: { valueM: 0.6, limitM: 0.7, marginM: 0.1 },
  measures: [],
  removals: [],
  blockers: [],
  shortByM: null,
  tried: 12,
  before: null,
  isWorse: false,
  alternatives: [],
  lift: null,
  minutes: { access: 2, work: 4, timesAYear: 6, aYear: 36 },
  tools: [],
  spillL: 0,
  at: [1.5, 0, 0],
  sources: [],
  cannotSee: [],
  ...part,
});

export const serviceReport = (tasks: readonly TaskReport[], part: Partial<ServiceReport> = {}): ServiceReport => ({
  engineVersion: 'test',
  boat: 'Three lockers',
  arrangement: null,
  person: { id: null, name: 'a middling adult', isInterpolated: true },
  tasks,
  burden: { aYear: 0, accessAYear: 0, byThing: [], leftOut: 0 },
  ...part,
});

export const rehearsalStep = (part: Partial<RehearsalStep> & Pick<RehearsalStep, 'kind'>): RehearsalStep => ({
  minutes: 1,
  subject: null,
  person: null,
  arms: [],
  rays: [],
  swept: [],
  drip: [],
  ...part,
});
