import type { HoleReason, HoleRole, RankedHole } from '@core/assess/water/which-hole';
import { freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { holeReasonText, holeRoleWords } from '@core/output/text/hole-text';
import { type JSX, useMemo, useState } from 'react';
import { ImmersionChart } from '../../charts/ImmersionChart';
import { useApp } from '../../store/app';
import type { Mark } from '../../store/findings';
import { useStudy } from '../../store/study';
import type { DisplayUnits } from '../../store/types';
import { FindingMark } from '../findings/FindingMark';
import { degreesText, figure, lengthUnit, wholeLength } from '../format';
import { Panel, Segmented } from '../inspector/parts';
import { StudyFault } from '../StudyFault';
import { type Column, Table } from '../Table';
import { HoleFacts } from './HoleFacts';
import { RunStates } from './RunStates';

const throughHulls = (boat: Boat): number => Object.values(boat.fixtures).filter(({ opensToSea }) => opensToSea).length;

/** Through-hulls that are there, ranked for the set: folded away until somebody asks. */
export function WhichHole({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const [isOpen, setOpen] = useState(false);
  const count = throughHulls(boat);
  if (count === 0) return null;
  return (
    <Panel title="Which hole?" aside={`${figure(count)} through-hull${count === 1 ? '' : 's'}`}>
      {isOpen ? (
        <Ranking boat={boat} />
      ) : (
        <>
          <p className="quiet">Holes that are there, as intake and as brine outlet. None is proposed that is not.</p>
          <div className="actions">
            <button type="button" className="button" onClick={() => setOpen(true)}>
              Rank the holes
            </button>
          </div>
        </>
      )}
    </Panel>
  );
}

function Ranking({ boat }: { readonly boat: Boat }): JSX.Element {
  const [role, setRole] = useState<HoleRole>('intake');
  const selection = useApp((state) => state.selection);
  const select = useApp((state) => state.select);
  const hover = useApp((state) => state.hover);
  const setHover = useApp((state) => state.setHover);
  const units = useApp((state) => state.displayUnits);
  const study = useStudy(
    'holes',
    useMemo(() => ({ boat, year: new Date().getFullYear() }), [boat]),
  );
  const heels = useMemo(() => runHeels(boat), [boat]);
  const { gives: ranking, from } = study;
  if (!ranking || !from)
    return study.fault === null ? <p className="quiet">Being worked out.</p> : <StudyFault study={study} />;
  const rows = role === 'intake' ? ranking.asIntake : ranking.asOutlet;
  const selectedId = selection?.kind === 'thing' ? selection.id : null;
  const chosen = rows.find(({ id }) => id === selectedId) ?? rows[0];
  const name = (id: string): string => from.boat.fixtures[id]?.name ?? id;
  const columns: readonly Column<RankedHole>[] = [
    { key: 'rank', title: 'Rank', cell: ({ rank, id }) => `${rank} ${name(id)}` },
    { key: 'verdict', title: 'Verdict', cell: (hole) => <FindingMark mark={markOf(hole.reasons)} /> },
    {
      key: 'depth',
      title: role === 'intake' ? 'Least' : 'Greatest',
      number: true,
      cell: ({ least, greatest }) => wholeLength((role === 'intake' ? least : greatest).depthM, units),
    },
    { key: 'crosses', title: 'Crosses', number: true, cell: crossing },
  ];
  return (
    <div className={study.isStale ? 'holes stale' : 'holes'}>
      <StudyFault study={study} />
      <Segmented
        label="Use of the hole"
        value={role}
        options={[
          ['intake', holeRoleWords('intake')],
          ['outlet', holeRoleWords('outlet')],
        ]}
        choose={(picked) => setRole(picked)}
      />
      <RunStates boat={boat} />
      <NoHaulOut boat={boat} />
      <Table
        label={`Through-hulls, ${holeRoleWords(role).toLowerCase()}`}
        rows={rows}
        columns={columns}
        idOf={({ id }) => id}
        selectedId={chosen?.id ?? null}
        hoveredId={hover?.kind === 'thing' ? hover.id : null}
        select={({ id }) => select({ kind: 'thing', id })}
        hover={(row) => setHover(row ? { kind: 'thing', id: row.id } : null)}
        empty="No through-hull has a place yet. Add a seacock or a skin fitting in stage 3."
      />
      <p className="quiet">{`Depth below the water in the run-states, ${lengthUnit(units)}; heel at which it crosses the water, P or S: port or starboard side down.`}</p>
      {rows.some(({ isUsable }) => isUsable) ? null : (
        <p>{`None of them serves ${role === 'intake' ? 'as intake' : 'as brine outlet'} as things stand. A new hole is not proposed unless you draw one.`}</p>
      )}
      <ImmersionChart
        title="Height of the holes above the water, m, against heel"
        lines={rows.map(({ id, immersion }) => ({ id, label: name(id), curve: immersion.curve }))}
        chosen={chosen?.id ?? null}
        heels={heels}
      />
      {chosen ? (
        <>
          <Reasons hole={chosen} title={`${chosen.rank} ${name(chosen.id)}`} boat={from.boat} />
          <HoleFacts boat={boat} id={chosen.id} />
        </>
      ) : null}
    </div>
  );
}

/** The demand that nothing is done to a through-hull for which the boat must be lifted out: one switch, kept in the file. */
function NoHaulOut({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const isDemanded = Object.values(boat.demands ?? {}).some(({ kind }) => kind === 'noHaulOut');
  return (
    <label className="tick">
      <input
        type="checkbox"
        checked={isDemanded}
        onChange={(event) =>
          edit(event.target.checked ? 'No haul-out' : 'A haul-out may be', (draft) => {
            if (event.target.checked) {
              draft.demands ??= {};
              draft.demands[freeId(draft.demands, 'no-haul-out')] = { kind: 'noHaulOut' };
            } else if (draft.demands)
              for (const [id, { kind }] of Object.entries(draft.demands))
                if (kind === 'noHaulOut') delete draft.demands[id];
          })
        }
      />
      No haul-out
    </label>
  );
}

function Reasons({
  hole,
  title,
  boat,
}: {
  readonly hole: RankedHole;
  readonly title: string;
  readonly boat: Boat;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  return (
    <div className="hole-reasons">
      <h4>{`${title}${hole.isUsable ? '' : ', ruled out'}`}</h4>
      <p className="quiet">{`${hole.side === 'centreline' ? 'On the centreline' : `On the ${hole.side} side`}, ${depthWords(hole.immersion.uprightM, units)} upright.`}</p>
      <ul>
        {hole.reasons.map((reason) => {
          const { said, source, doubt } = holeReasonText(reason, boat);
          return (
            <li key={`${reason.key} ${String(reason.data.other ?? '')}`}>
              <FindingMark mark={markOf([reason])} />
              <div>
                {said}
                {doubt === '' ? null : <div className="doubt">{doubt}</div>}
                <div className="quiet">{source}</div>
              </div>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

const depthWords = (depthM: number, units: DisplayUnits): string =>
  `${wholeLength(Math.abs(depthM), units)} ${lengthUnit(units)} ${depthM >= 0 ? 'under' : 'above'} the water`;

/** Heaviest reason first: its shape speaks for the hole. */
function markOf(reasons: readonly HoleReason[]): Mark {
  const [heaviest] = reasons;
  switch (heaviest?.weight) {
    case 'rulesOut':
      return heaviest.closeCall ? 'closeCall' : 'danger';
    case 'danger':
      return heaviest.closeCall ? 'closeCall' : 'fault';
    case 'against':
      return heaviest.closeCall ? 'closeCall' : 'advice';
    case 'unknown':
      return 'cannotTell';
    case 'note':
      return heaviest.closeCall ? 'closeCall' : 'advice';
    default:
      return 'pass';
  }
}

function crossing({ immersion: { crossesDeg } }: RankedHole): string {
  const { port, starboard } = crossesDeg;
  const first = Math.min(port ?? Number.POSITIVE_INFINITY, starboard ?? Number.POSITIVE_INFINITY);
  if (!Number.isFinite(first)) return '\u2013';
  return `${degreesText(first, 1)} ${first === port ? 'P' : 'S'}`;
}

/** Heels of the run-states, + with starboard down. */
function runHeels(boat: Boat): readonly number[] {
  const heels = Object.values(boat.runStates).flatMap(({ heelDeg, sideDown }) =>
    sideDown === 'both' ? [heelDeg, -heelDeg] : [sideDown === 'starboard' ? heelDeg : -heelDeg],
  );
  return [...new Set([0, ...heels])].sort((a, b) => a - b);
}
