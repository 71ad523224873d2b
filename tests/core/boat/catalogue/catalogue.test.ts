import { endFittingsFor } from '@core/boat/catalogue/end-fittings';
import { FIXTURE_TEMPLATES } from '@core/boat/catalogue/fixture-templates';
import { genericSet } from '@core/boat/catalogue/generic-set';
import { LINE_KINDS, lineKindOf } from '@core/boat/catalogue/line-kinds';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf } from '@core/boat/catalogue/templates';
import { edit, fixtureAdded, partAdded } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Service } from '@core/boat/schema/boat';
import { end } from '@core/boat/schema/lines';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../../support/boats';

describe('generic hoses, tubes and cables', () => {
  // Published: EN 853, least bend radius to the inside and working pressure of type 1SN, by nominal size.
  it.each([
    ['hose-pressure-6', 0.1, 225],
    ['hose-pressure-8', 0.115, 215],
    ['hose-pressure-10', 0.13, 180],
    ['hose-pressure-13', 0.18, 160],
    ['hose-pressure-16', 0.2, 130],
    ['hose-pressure-19', 0.24, 105],
  ])('%s has the radius and pressure of EN 853 1SN', (id, radius, bar) => {
    expect(LINE_KINDS[id]).toMatchObject({ bendRadiusM: radius, radiusTo: 'inside', pressureBar: bar });
  });

  // Published: EN 853, type 2SN has the radii of 1SN and higher pressures.
  it.each([
    ['hose-pressure-2sn-6', 0.1, 400],
    ['hose-pressure-2sn-10', 0.13, 330],
    ['hose-pressure-2sn-13', 0.18, 275],
  ])('%s has the radius and pressure of EN 853 2SN', (id, radius, bar) => {
    expect(LINE_KINDS[id]).toMatchObject({ bendRadiusM: radius, pressureBar: bar });
  });

  it('plastic tube bends to eight outside diameters (derived from plastics pipe practice)', () => {
    for (const id of ['tube-product-6', 'tube-product-10', 'tube-water-15']) {
      const kind = LINE_KINDS[id];
      expect(kind?.bendRadiusM).toBeCloseTo(8 * (kind?.outsideM ?? 0), 9);
      expect(kind?.radiusTo).toBe('centreline');
    }
  });

  it('every kind says where its values come from, and its bore is inside it', () => {
    for (const [id, kind] of Object.entries(LINE_KINDS)) {
      expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9.]+)*$/);
      expect(kind.source, id).toBeTruthy();
      expect(kind.boreM ?? 0, id).toBeLessThan(kind.outsideM);
    }
  });

  it("a boat's own kind counts before the catalogue's", () => {
    const own = { ...LINE_KINDS['hose-suction-19'], name: 'Ours' } as NonNullable<ReturnType<typeof lineKindOf>>;
    expect(lineKindOf({ 'hose-suction-19': own }, 'hose-suction-19')?.name).toBe('Ours');
    expect(lineKindOf({}, 'hose-suction-19')?.name).toBe('Suction hose 19 mm');
    expect(lineKindOf({}, 'constructor')).toBeUndefined();
  });
});

describe('templates of parts and fixtures', () => {
  const all = [...PART_TEMPLATES, ...FIXTURE_TEMPLATES];

  it('have ids of their own', () => {
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
  });

  it.each(all.map((template) => [template.id, template] as const))('%s is whole', (_, template) => {
    const part = partOf(template);
    const half =
      part.shape.type === 'box'
        ? part.shape.sizeM.map((side) => side / 2)
        : (['x', 'y', 'z'] as const).map((axis) =>
            part.shape.type === 'cylinder' && part.shape.axis === axis
              ? part.shape.lengthM / 2
              : part.shape.type === 'cylinder'
                ? part.shape.diameterM / 2
                : 0,
          );
    const isOnEnvelope = (at: readonly number[]): boolean =>
      at.every((value, axis) => Math.abs(value) <= (half[axis] ?? 0) + 1e-9) &&
      at.some((value, axis) => Math.abs(Math.abs(value) - (half[axis] ?? 0)) < 0.025);
    for (const [id, port] of Object.entries(part.ports)) expect(isOnEnvelope(port.at), `port ${id}`).toBe(true);
    for (const [id, { at, direction }] of Object.entries(part.services)) {
      expect(isOnEnvelope(at), `service ${id}`).toBe(true);
      // The clear space starts at the envelope and leads away from it.
      const out = at.reduce((sum, value, axis) => sum + value * (direction[axis] ?? 0), 0);
      expect(out, `service ${id}`).toBeGreaterThanOrEqual(0);
    }
  });

  it('can be added to a boat', () => {
    const result = readBoat(JSON.stringify(emptyBoat()));
    if (!result.ok) throw new Error('unreadable');
    let boat = result.boat;
    for (const template of PART_TEMPLATES) {
      const added = edit(boat, partAdded(template.id, partOf(template)));
      if (!added.ok) throw new Error(added.problems[0]?.message);
      boat = added.boat;
    }
    for (const template of FIXTURE_TEMPLATES) {
      const added = edit(boat, fixtureAdded(template.id, { ...template.draft, pose: { at: [1, 0, 0] } }));
      if (!added.ok) throw new Error(added.problems[0]?.message);
      boat = added.boat;
    }
    expect(Object.keys(boat.parts)).toHaveLength(PART_TEMPLATES.length);
    expect(Object.keys(boat.fixtures)).toHaveLength(FIXTURE_TEMPLATES.length);
  });
});

describe('service tasks of templates', () => {
  const tasksOf = (things: readonly { readonly services: Readonly<Record<string, Service>> }[]) =>
    new Set(things.flatMap(({ services }) => Object.values(services).map(({ task }) => task)));

  it('a whole set brings what its owner will have to do', () => {
    const { parts } = genericSet(60, { intake: 'sea', bank: 'bank', tank: 'tank', freshPump: 'fresh' });
    const wanted = [
      'oilGlass',
      'oilFill',
      'oilDrain',
      'impellerCover',
      'pumpHead',
      'bowlDrop',
      'carbon',
      'basket',
    ] as const;
    const more = ['caps', 'elementWithdrawal', 'liftOut', 'handle', 'gauge', 'panelBack', 'tapCup', 'breaker'] as const;
    expect([...tasksOf(Object.values(parts))]).toEqual(expect.arrayContaining([...wanted, ...more]));
  });

  it('an element comes out at either end, or the vessel whole: one of them suffices', () => {
    const { parts } = genericSet(60, { intake: null, bank: null, tank: null, freshPump: null });
    const either = Object.values(parts.membrane?.services ?? {}).filter((task) => task.either === 'element');
    expect(either.map(({ task, direction }) => [task, direction[0]])).toEqual([
      ['elementWithdrawal', 1],
      ['elementWithdrawal', -1],
      ['liftOut', 0],
    ]);
    // caps come off whichever way it goes
    const caps = Object.values(parts.membrane?.services ?? {}).filter(({ task }) => task === 'caps');
    expect(caps.map((task) => task.either)).toEqual([undefined, undefined]);
  });

  it("the boat's own things have theirs: gland, filters, belts, lids, batteries, tiller, bolts, limbers", () => {
    const own = tasksOf(FIXTURE_TEMPLATES.map(partOf));
    const wanted = [
      'stuffingBox',
      'oilFilter',
      'fuelFilter',
      'belt',
      'dipstick',
      'tankLid',
      'batteryPosts',
      'liftOut',
    ] as const;
    const more = [
      'emergencyTiller',
      'keelBolts',
      'limbers',
      'seals',
      'anode',
      'panelFront',
      'panelBack',
      'handle',
    ] as const;
    expect([...own]).toEqual(expect.arrayContaining([...wanted, ...more]));
  });
});

describe('end fittings', () => {
  const kinds = Object.entries(LINE_KINDS);

  it('are accepted by the schema for every kind; the first is that of the kind', () => {
    for (const [id, kind] of kinds) {
      const choices = endFittingsFor(kind);
      expect(choices.length, id).toBeGreaterThan(1);
      for (const { id: choice, end: fitting } of choices)
        expect([id, choice, end.safeParse(fitting).success]).toEqual([id, choice, true]);
      expect(choices[0]?.end.diameterM, id).toBe(kind.end?.diameterM);
      expect(choices[0]?.end.rigidM, id).toBe(kind.end?.rigidM);
    }
  });

  it('a 90 degree end of 3/8 in pressure hose wants a hole of 45 to 60 mm (common practice, no source)', () => {
    const kind = LINE_KINDS['hose-pressure-10'];
    const bent = kind && endFittingsFor(kind).find(({ id }) => id === 'nut-90')?.end;
    expect(bent?.diameterM).toBeGreaterThanOrEqual(0.045);
    expect(bent?.diameterM).toBeLessThanOrEqual(0.06);
  });
});

describe('what is usual aboard an 11 m boat', () => {
  // Common practice, no source: sizes in millimetres and kilograms as a fitter has them in mind.
  it.each([
    ['head', [480, 430, 360], 11],
    ['deck-wash-pump', [200, 120, 150], 0.8],
    ['bilge-pump-manual', [250, 200, 180], 1.5],
    ['autopilot-drive', [550, 120, 120], 8],
    ['fridge-compressor', [320, 200, 170], 8],
    ['water-lock', [300, 300, 350], 5],
    ['tank-water-200', [1100, 500, 420], 220],
    ['engine-30hp', [850, 520, 640], 185],
    ['inverter-charger', [130, 210, 360], 14],
    ['gas-locker', [650, 350, 520], 22],
  ])('%s', (id, size, massKg) => {
    const draft = FIXTURE_TEMPLATES.find((template) => template.id === id)?.draft;
    expect(draft?.shape.type === 'box' ? draft.shape.sizeM.map((side) => Math.round(side * 1000)) : null).toEqual(size);
    expect(draft?.massKg).toBe(massKg);
  });
});
