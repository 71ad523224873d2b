import type { Vec3 } from '@core/base/vec';
import { type BoatRecipe, edit as tried } from '@core/boat/edits';
import { newHoleBound, newHoleRemoved, panelDataBound, panelDataRemoved } from '@core/boat/interior/panel-data';
import { gapClosed, gapsBetween, overlapCut } from '@core/boat/interior/remedies';
import { type FaceMove, facesMoved } from '@core/boat/interior/shaping';
import type { Boat, PanelData } from '@core/boat/schema/boat';
import { materialText } from '@core/output/text/schema-words';
import type { LayoutInput } from '@core/shape/layout/derive';
import type { Panel as DerivedPanel, Layout, Orphan } from '@core/shape/layout/types';
import { slivers } from '@core/shape/layout/undrawn';
import { type JSX, type ReactNode, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { layoutInputOf, layoutOf } from '../../store/derived';
import { deleteSelected } from '../../store/interior';
import { nearOf, panelWords, placeOfPanel } from '../../store/panel-place';
import { compartmentName } from '../../store/select';
import { useStudy } from '../../store/study';
import { figure, lengthUnit, wholeLength } from '../format';
import { Choice, Facts, Link, Panel } from '../inspector/parts';
import { StudyFault } from '../StudyFault';
import { RULE_WORDS } from '../words';

interface Props {
  readonly boat: Boat;
}

/** What of the interior does not fit together, each with what would mend it; panels' data that lost their panel. */
export function InteriorFaults({ boat }: Props): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const layout = layoutOf(boat, arrangementId);
  return (
    <>
      <Overlaps boat={boat} layout={layout} />
      <Gaps boat={boat} />
      <Slivers boat={boat} layout={layout} />
      <Orphans boat={boat} layout={layout} />
      <Undrawn hull={boat.hull} interior={layoutInputOf(boat, arrangementId)} />
    </>
  );
}

/** A remedy as a button, offered only when the boat takes it. */
function Remedy({
  boat,
  words,
  label,
  move,
}: {
  readonly boat: Boat;
  readonly words: string;
  readonly label: string;
  readonly move: FaceMove | null;
}): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const recipe: BoatRecipe | null = useMemo(() => (move ? facesMoved([move]) : null), [move]);
  const works = useMemo(() => recipe !== null && tried(boat, recipe).ok, [boat, recipe]);
  if (!recipe || !works) return null;
  return (
    <button type="button" className="button plain" onClick={() => edit(label, recipe)}>
      {words}
    </button>
  );
}

function Fault({
  title,
  why,
  at,
  pick,
  children,
}: {
  readonly title: string;
  readonly why: string;
  readonly at: Vec3 | null;
  readonly pick: string;
  readonly children?: ReactNode;
}): JSX.Element {
  const goTo = useApp((state) => state.goTo);
  return (
    <li className="fault">
      <Link go={() => goTo({ kind: 'compartment', id: pick }, at)}>{title}</Link>
      <p>{why}</p>
      <div className="actions">{children}</div>
    </li>
  );
}

function Overlaps({ boat, layout }: Props & { readonly layout: Layout }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  if (layout.overlaps.length === 0) return null;
  return (
    <Panel title="Sharing space" level={3} aside={figure(layout.overlaps.length)}>
      <ul className="faults">
        {layout.overlaps.map(({ between, depthM, at }) => {
          const [a, b] = between.map((id) => compartmentName(boat, id)) as [string, string];
          return (
            <Fault
              key={between.join(' ')}
              title={`${a} and ${b}`}
              why={`They overlap by ${wholeLength(depthM, units)} ${lengthUnit(units)}. What lies there belongs to neither.`}
              at={at}
              pick={between[0]}
            >
              {([0, 1] as const).map((side) => (
                <Remedy
                  key={side}
                  boat={boat}
                  words={`Cut it from ${side === 0 ? a : b}`}
                  label={`Cut the overlap from ${side === 0 ? a : b}`}
                  move={overlapCut(boat.compartments, between[side], between[side === 0 ? 1 : 0])}
                />
              ))}
            </Fault>
          );
        })}
      </ul>
    </Panel>
  );
}

function Gaps({ boat }: Props): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const gaps = useMemo(() => gapsBetween(boat.compartments), [boat.compartments]);
  if (gaps.length === 0) return null;
  return (
    <Panel title="Undrawn gaps" level={3} aside={figure(gaps.length)}>
      <ul className="faults">
        {gaps.map((gap) => {
          const [a, b] = gap.between.map((id) => compartmentName(boat, id)) as [string, string];
          return (
            <Fault
              key={[...gap.between, ...gap.keys].join(' ')}
              title={`${a} and ${b}`}
              why={`${wholeLength(gap.gapM, units)} ${lengthUnit(units)} lie between them: too much for a panel. No run passes there.`}
              at={gap.at}
              pick={gap.between[0]}
            >
              {([0, 1] as const).map((side) => (
                <Remedy
                  key={side}
                  boat={boat}
                  words={`Move ${side === 0 ? a : b} up to it`}
                  label={`Close the gap with ${side === 0 ? a : b}`}
                  move={gapClosed(gap, side)}
                />
              ))}
            </Fault>
          );
        })}
      </ul>
    </Panel>
  );
}

/** Compartments so thin that nobody meant them. */
function Slivers({ boat, layout }: Props & { readonly layout: Layout }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const select = useApp((state) => state.select);
  const thin = useMemo(() => slivers(layout).filter(({ kind }) => kind === 'compartment'), [layout]);
  if (thin.length === 0) return null;
  return (
    <Panel title="Slivers" level={3} aside={figure(thin.length)}>
      <ul className="faults">
        {thin.map(({ compartments, thicknessM, at }) => {
          const id = compartments[0] ?? '';
          return (
            <Fault
              key={id}
              title={compartmentName(boat, id)}
              why={`It is only ${wholeLength(thicknessM, units)} ${lengthUnit(units)} thick.`}
              at={at}
              pick={id}
            >
              <button
                type="button"
                className="button plain"
                onClick={() => {
                  select({ kind: 'compartment', id });
                  deleteSelected();
                }}
              >
                Delete it
              </button>
            </Fault>
          );
        })}
      </ul>
    </Panel>
  );
}

const REASONS: Readonly<Record<Orphan['reason'], string>> = {
  noSuchPair: 'Its two compartments no longer meet.',
  tooFar: 'No panel of its pair lies near it.',
  openPanel: 'Its panel is open: there is nothing to drill.',
  takenByNearer: 'Another record lies nearer to the same panel.',
  setAside: 'Its compartments were merged or deleted.',
};

/** Data of panels that no panel has: bound to another by hand, or removed. */
function Orphans({ boat, layout }: Props & { readonly layout: Layout }): JSX.Element | null {
  if (layout.orphans.length === 0) return null;
  return (
    <Panel title="Data without a panel" level={3} aside={figure(layout.orphans.length)}>
      <ul className="faults">
        {layout.orphans.map((orphan) => (
          <OrphanRow key={`${orphan.what} ${orphan.dataId}`} boat={boat} layout={layout} orphan={orphan} />
        ))}
      </ul>
    </Panel>
  );
}

function OrphanRow({
  boat,
  layout,
  orphan,
}: Props & { readonly layout: Layout; readonly orphan: Orphan }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const arrangementId = useApp((state) => state.arrangementId) ?? '';
  const { dataId, what, reason } = orphan;
  const record = what === 'panel' ? boat.panels[dataId] : undefined;
  const hole = what === 'newHole' ? boat.arrangements[arrangementId]?.newHoles[dataId] : undefined;
  const near: Vec3 = record?.near ?? hole?.at ?? [0, 0, 0];
  const panels = Object.values(layout.panels).sort((a, b) => farOf(nearOf(a), near) - farOf(nearOf(b), near));
  const [chosen, setChosen] = useState<string | null>(null);
  const panel: DerivedPanel | undefined = (chosen === null ? undefined : layout.panels[chosen]) ?? panels[0];
  const words =
    record?.name ?? [...(record?.between ?? hole?.between ?? [])].map((id) => compartmentName(boat, id)).join(' to ');
  const bind = (): void => {
    if (!panel) return;
    const place = placeOfPanel(panel);
    edit(
      `Bind the data of ${words}`,
      what === 'panel' ? panelDataBound(dataId, place) : newHoleBound(arrangementId, dataId, place),
    );
  };
  const remove = (): boolean =>
    edit(
      `Remove the data of ${words}`,
      what === 'panel' ? panelDataRemoved(dataId) : newHoleRemoved(arrangementId, dataId),
    );
  return (
    <li className="fault">
      <span className="place">{words}</span>
      <p>
        {REASONS[reason]} {record ? kept(record) : 'A hole that is still to be drilled.'}
      </p>
      {panel ? (
        <div className="add-row">
          <Choice
            label={`Panel for the data of ${words}`}
            value={panel.id}
            options={panels.map((one) => [one.id, panelWords(boat, one)] as const)}
            choose={setChosen}
          />
          <button type="button" className="button" onClick={bind}>
            Bind here
          </button>
        </div>
      ) : null}
      <div className="actions">
        <button type="button" className="button plain" onClick={remove}>
          Remove
        </button>
      </div>
    </li>
  );
}

const farOf = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** What the record says, so that one knows what would be lost. */
function kept({ rule, thicknessM, material, holes }: PanelData): string {
  const count = Object.keys(holes).length;
  const words = [
    RULE_WORDS[rule].toLowerCase(),
    thicknessM === undefined ? '' : `${figure(thicknessM * 1000)} mm`,
    material === undefined ? '' : materialText(material),
    count === 0 ? '' : count === 1 ? '1 hole' : `${count} holes`,
  ];
  return `Kept: ${words.filter((word) => word !== '').join(', ')}.`;
}

/** A dragged face comes to rest for so long before the room is looked for anew, milliseconds. */
const UNDRAWN_PAUSE_MS = 60;

/** How much of the hull is in no compartment, and where: asked for by hand, since it takes a moment. */
function Undrawn({
  hull,
  interior,
}: {
  readonly hull: Boat['hull'];
  readonly interior: LayoutInput;
}): JSX.Element | null {
  const { setSectionX, glideTo } = useApp.getState();
  const [isWanted, want] = useState(false);
  const study = useStudy(
    'undrawn',
    useMemo(() => (isWanted && hull ? { interior, hull } : null), [isWanted, interior, hull]),
    UNDRAWN_PAUSE_MS,
  );
  if (!hull) return null;
  if (!isWanted)
    return (
      <Panel title="Undrawn space" level={3}>
        <div className="actions">
          <button type="button" className="button plain" onClick={() => want(true)}>
            Look for room in no compartment
          </button>
        </div>
      </Panel>
    );
  const { gives: space } = study;
  if (!space)
    return (
      <Panel title="Undrawn space" level={3}>
        {study.fault === null ? <p className="quiet">Being worked out.</p> : <StudyFault study={study} />}
      </Panel>
    );
  return (
    <Panel
      title="Undrawn space"
      level={3}
      aside={study.isLong ? <span className="stale">being worked out</span> : 'm\u00b3'}
    >
      <StudyFault study={study} />
      <Facts
        rows={[
          ['Inside of the hull', figure(space.interiorM3, 2)],
          ['In no compartment', figure(space.volumeM3, 2)],
          ['of it panels and wedges', figure(space.gapsM3, 2)],
        ]}
      />
      <dl className="facts">
        {space.pieces.slice(0, 8).map((piece) => (
          <div key={piece.at.join(' ')}>
            <dt>
              <Link
                go={() => {
                  setSectionX(piece.at[0]);
                  glideTo(piece.at);
                }}
              >
                {`from x ${figure(piece.low[0], 2)} to ${figure(piece.high[0], 2)} m`}
              </Link>
            </dt>
            <dd>{figure(piece.volumeM3, 2)}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet">Runs go through compartments only: draw what they shall pass.</p>
    </Panel>
  );
}
