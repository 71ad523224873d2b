import { readBoat } from '@core/boat/read';
import { describe, expect, it } from 'vitest';
import {
  type Changes,
  datum,
  finding,
  judge,
  length,
  MM,
  measured,
  near,
  rad,
  raw,
  run,
  SHORTEST,
  verdict,
} from './judging';

/*
 * Ten boats written from the schema and the habits of the trade alone. Every expected value is hand arithmetic on the
 * numbers of the boat file (derived), shown beside it; limits are the boat's own unless a source stands there.
 */

describe('Wrackline, a sloop of 9 m', () => {
  const drawn = judge('wrackline');

  it('moves the pump 30 mm forward, and the straight suction hose grows by 30 mm', () => {
    // Strainer's outlet x 2.70 + .065 = 2.765; pump's inlet x 4.165 - .26 = 3.905; both at y -.7, z .25.
    near(length(drawn, 'ln2'), 1.14);
    near(length(judge('wrackline', { 'arrangements/aa/places/w9/at/0': 4.195 }), 'ln2'), 1.17);
  });

  it('drills the bulkhead once, on the axis, halfway through its 18 mm', () => {
    expect(drawn.summary.newHoles).toBe(1);
    const hole = run(drawn, 'ln2').holes[0];
    // Outlines end at x 3.400 and begin at 3.418.
    near(hole?.at[0] ?? 0, 3.409);
    near(hole?.at[1] ?? 0, -0.7, 2 * MM);
    near(hole?.at[2] ?? 0, 0.25, 2 * MM);
  });

  it('may not drill: only a hole that is wide enough lets the 27 mm hose through', () => {
    const shut = { 'panels/p-mid/rule': 'noDrill' };
    const hole = (diameterM: number): Changes => ({
      ...shut,
      'panels/p-mid/holes': { old: { at: [3.409, -0.7, 0.25], diameterM } },
    });
    expect(run(judge('wrackline', shut), 'ln2').status).toBe('blocked');
    expect(run(judge('wrackline', hole(0.026)), 'ln2').status).toBe('blocked');
    const wide = judge('wrackline', hole(0.034));
    near(length(wide, 'ln2'), 1.14);
    expect(wide.summary.newHoles).toBe(0);
    expect(run(wide, 'ln2').holes.map((h) => h.existing)).toEqual([true]);
  });

  it('cannot reach the seacock through the lid, and can with an extended handle', () => {
    // Handle (2.0, -.5, -.22); nearest point of the lid (2.2, -.53, .75): hypot(.2, .03, .97) = .9909. Limit .56: ISO 9093.
    expect(verdict(drawn, 'access/seacock-handle|x1|')).toBe('fail outOfReach');
    near(measured(drawn, 'access/seacock-handle|x1|'), 0.9909);
    // Half a metre higher: hypot(.2, .03, .47) = .5117.
    const longer = judge('wrackline', { 'fixtures/x1/valve/handle/at': [0, 0, 0.55] });
    expect(verdict(longer, 'access/seacock-handle|x1|')).toBe('pass');
    near(measured(longer, 'access/seacock-handle|x1|'), 0.5117);
  });

  it('loses twice the volts in half the copper', () => {
    const key = 'power/motor-voltage|w9|';
    const lost = datum(drawn, key, 'lostV');
    near(datum(judge('wrackline', { 'lineKinds/c10/areaMm2': 5 }), key, 'lostV'), 2 * lost, 0.01 * lost);
    // 10 % of 12.6 V may go: 11.34 V must be left. .0611 V in 10 mm2 makes 1.36 V in .45 mm2.
    const thin = judge('wrackline', { 'lineKinds/c10/areaMm2': 0.45 });
    expect(verdict(drawn, key)).toBe('pass');
    expect(verdict(thin, key)).toBe('fail tooFewVolts');
    near(measured(thin, key), 12.6 - (lost * 10) / 0.45, 0.01);
  });
});

describe('Limpet, a single locker without a hull', () => {
  const drawn = judge('limpet');

  it('finds 20 mm of overlap with the spares box, and 10 mm of gap when moved 30 mm', () => {
    // Pump's end 1.07 + .20 = 1.27; the box begins at 1.40 - .15 = 1.25.
    expect(verdict(drawn, 'access/overlap|c|b')).toBe('fail overlap');
    near(measured(drawn, 'access/overlap|c|b'), -0.02);
    const apart = judge('limpet', { 'arrangements/only/places/c/at/0': 1.04 });
    near(measured(apart, 'access/overlap|c|'), 0.01);
  });

  it('finds a corner of the pump 30 mm through the side of the locker', () => {
    // Side at y 0; pump's side at .12 - .15 = -.03.
    const through = judge('limpet', { 'arrangements/only/places/c/at': [0.8, 0.12, 0] });
    const found = through.findings.filter(
      (f) => f.rule === 'access/overlap' && f.subject === 'c' && f.outcome === 'fail',
    );
    expect(found.map((f) => f.outcome === 'fail' && f.reason)).toEqual(['throughWall']);
    expect(found.map((f) => f.outcome === 'fail' && Math.round(1000 * f.measured.value))).toEqual([-30]);
  });

  it('lacks 28 mm under the bowl, and has enough when the filter goes up 30 mm', () => {
    const key = 'access/service-space|d|bowl';
    // Filter's foot .092 - .16 = -.068, floor -.1: 32 mm where 60 are asked.
    expect(verdict(drawn, key)).toBe('fail tooLittle');
    near(measured(drawn, key), 0.032);
    const up = judge('limpet', { 'arrangements/only/places/d/at/2': 0.122 });
    expect(verdict(up, key)).toBe('pass');
    near(measured(up, key), 0.062);
    // Half the limit turns the fault into a pass without a move.
    expect(verdict(judge('limpet', { 'parts/d/services/bowl/clearM': 0.03 }), key)).toBe('pass');
  });

  it('traps air in a hose that is clipped up above both ends and above the water', () => {
    const key = 'water/suction-crest|y2|';
    expect(verdict(drawn, key)).toBe('pass');
    // Ends at z .092 + .12 = .212 and -.05; the clip at .45 is .238 above the higher one.
    const clip = judge('limpet', { 'arrangements/only/clipPoints': { y2: { c: { at: [0.7, 0.3, 0.45], order: 1 } } } });
    expect(verdict(clip, key)).toBe('fail trapsAir');
    near(measured(clip, key), 0.238);
  });

  it('wants a strainer before the pump', () => {
    expect(verdict(drawn, 'water/filter-order|c|')).toBe('fail noStrainer');
    expect(verdict(judge('limpet', { 'parts/d/kind': 'strainer' }), 'water/filter-order|c|')).toBe('pass');
  });
});

describe('Oarweed, a ketch of 12 m with two arrangements', () => {
  const drawn = judge('oarweed');

  it('needs 2.40 m from port to port plus 50 mm of reserve', () => {
    const key = 'runs/supplied-length|h|';
    // Ports at x 2.74 + .26 = 3.00 and 5.995 - .595 = 5.40 face each other at y 0, z .1.
    near(length(drawn, 'h'), 2.4);
    expect(verdict(drawn, key)).toBe('fail cannotReach'); // 2.40 + .05 > 2.44
    expect(verdict(judge('oarweed', { 'lines/h/supplied/lengthM': 2.46 }), key)).toBe('pass');
    expect(verdict(judge('oarweed', { 'lines/h/supplied/spareM': 0.02 }), key)).toBe('pass');
    const aft = judge('oarweed', { 'arrangements/fwd/places/tu/at/0': 5.965 });
    expect(verdict(aft, key)).toBe('pass'); // 2.37 + .05 < 2.44
    near(measured(aft, key), 2.37);
  });

  it('turned end for end, starts 2.92 m off and the hose does not reach', () => {
    const turned = judge('oarweed', { currentArrangement: 'aft' });
    // Port at x 2.74 - .26 = 2.48.
    expect(length(turned, 'h')).toBeGreaterThan(2.92);
    expect(verdict(turned, 'runs/supplied-length|h|')).toBe('fail cannotReach');
  });

  it('passes the made-up end of 26 mm through the loom hole of 30 mm, not of 24', () => {
    expect(drawn.summary.newHoles).toBe(1);
    const small = judge('oarweed', { 'panels/g2/holes/loom/diameterM': 0.024 });
    expect(verdict(small, 'runs/blocked|h|').startsWith('fail')).toBe(true);
    // Taken away, the engine bulkhead is as drillable as before; open, it needs no hole.
    expect(judge('oarweed', { 'panels/g1': undefined }).summary.newHoles).toBe(1);
    expect(judge('oarweed', { 'panels/g1/rule': 'open' }).summary.newHoles).toBe(0);
    expect(run(judge('oarweed', { 'panels/g1/rule': 'noDrill' }), 'h').status).toBe('blocked');
  });

  it('has 70 mm too little to draw the element, and enough with a longer settee', () => {
    const key = 'access/service-space|tu|pull';
    // Vessel's end 5.995 + .595 = 6.59, bulkhead at 7.67: 1.08 of 1.15.
    expect(verdict(drawn, key)).toBe('fail tooLittle');
    near(measured(drawn, key), 1.08);
    const longer = judge('oarweed', { 'compartments/vu8/outline/1/0': 7.75, 'compartments/vu8/outline/2/0': 7.75 });
    expect(verdict(longer, key)).toBe('pass');
    near(measured(longer, key), 1.16);
  });

  it('takes the pump in through the steps with 10 mm to spare, and lacks 10 mm when they are 20 mm lower', () => {
    const key = 'access/way-in|pm|';
    // Smallest side of the pump 280, steps 290 high.
    expect(verdict(drawn, key)).toBe('pass');
    near(measured(drawn, key), 0.01);
    const low = judge('oarweed', { 'openings/steps/heightM': 0.27 });
    expect(verdict(low, key)).toBe('fail tooBig');
    near(measured(low, key), -0.01);
  });

  it('does not pass a vessel of 1.19 m into a box of 1.3 x .3 m through a lid of .3 m in its middle', () => {
    // From the far edge of the lid to the corner: hypot(.8, .3) = .854 < 1.19.
    const box = judge('oarweed', {
      'compartments/vu8/outline': [
        [5.22, -0.6],
        [6.52, -0.6],
        [6.52, 0.6],
        [5.22, 0.6],
      ],
      'compartments/vu8/rangeM': [0, 0.3],
      'openings/cush/heightM': 0.3,
      'openings/cush/at': [5.87, 0, 0.3],
      'arrangements/fwd/places/tu/at': [5.9, 0, 0.1],
      fixtures: {},
    });
    expect(finding(box, 'access/way-in|tu|').outcome).not.toBe('pass');
  });
});

describe('Samphire, a launch of 6 m with a V bottom', () => {
  /*
   * 45 degrees of deadrise, 0.6 m deep, wall to wall. With the same volume below the water the centreline's draught at
   * heel a is .6 sqrt(1 - tan2 a): the boat rises by .6 less that. A point (y, z) is then as deep as stated here.
   */
  const depth = (y: number, z: number, heelDeg: number): number => {
    const rise = 0.6 - 0.6 * Math.sqrt(1 - Math.tan(rad(heelDeg)) ** 2);
    return Math.abs(y) * Math.sin(rad(heelDeg)) - (z + rise) * Math.cos(rad(heelDeg));
  };
  const drawn = judge('samphire');

  it('puts the intake 286 mm under at 20 degrees', () => {
    near(depth(-0.4, -0.2, 20), 0.28607, 0.0001);
    near(datum(drawn, 'hull/seacock|r|', 'depthM'), depth(-0.4, -0.2, 20));
    expect(verdict(drawn, 'hull/seacock|r|')).toBe('pass');
    // Handle (3, -.35, -.01) to the board at y -.05 beside it: .30; to a board 200 mm wide at x 3.9: hypot(.8, .3).
    near(measured(drawn, 'access/seacock-handle|sk|'), 0.3);
    const far = judge('samphire', { 'openings/jl/at': [3.9, -0.05, 0], 'openings/jl/widthM': 0.2 });
    expect(verdict(far, 'access/seacock-handle|sk|')).toBe('fail outOfReach');
    near(measured(far, 'access/seacock-handle|sk|'), Math.hypot(0.8, 0.3));
  });

  it('without a hull turns about the centreline at the water', () => {
    const bare = judge('samphire', { hull: undefined });
    near(datum(bare, 'hull/seacock|r|', 'depthM'), 0.4 * Math.sin(rad(20)) + 0.2 * Math.cos(rad(20)));
  });

  it('keeps the side outlet 13 mm above the water at 20 degrees; 30 mm lower or 2 degrees more it wants a seacock', () => {
    const key = 'hull/seacock|v|';
    // 13 mm are within what the tape may be off: dry, but a close call.
    expect(finding(drawn, key)).toMatchObject({ outcome: 'pass', closeCall: expect.anything(), data: { dry: true } });
    const low = judge('samphire', { 'fixtures/ov/pose/at/2': 0.27 });
    expect(verdict(low, key)).toBe('fail noSeacock');
    near(measured(low, key), depth(-0.9, 0.27, 20)); // .0154
    const more = judge('samphire', { greatestHeelDeg: 22 });
    expect(verdict(more, key)).toBe('fail noSeacock');
    near(measured(more, key), depth(-0.9, 0.3, 22)); // .0116
  });
});

describe('Two Kelps, the port hull of a catamaran 2.2 m off the centreline', () => {
  const sea = { 'fixtures/i5/valve/states': ['open', 'shut'] };

  it('dips the hull as the whole boat heels', () => {
    // Walls stand up and no bilge comes out at 5 degrees: 2.4 sin 5 + .3 cos 5 = .5080; 2.7 sin 5 - .2 cos 5 = .0361.
    const drawn = judge('two-kelps', sea);
    near(datum(drawn, 'hull/seacock|n1|', 'depthM'), 2.4 * Math.sin(rad(5)) + 0.3 * Math.cos(rad(5)));
    expect(verdict(drawn, 'hull/seacock|n1|')).toBe('pass');
    expect(verdict(drawn, 'hull/seacock|n3|')).toBe('fail noSeacock');
    near(measured(drawn, 'hull/seacock|n3|'), 2.7 * Math.sin(rad(5)) - 0.2 * Math.cos(rad(5)));
  });

  it('needs no seacock at the brine outlet 60 mm higher, nor when the boat stays upright', () => {
    const higher = judge('two-kelps', { ...sea, 'fixtures/i6/pose/at/2': 0.26 });
    expect(finding(higher, 'hull/seacock|n3|')).toMatchObject({ outcome: 'pass', closeCall: expect.anything() });
    const upright = { ...sea, greatestHeelDeg: 0, 'runStates/s/heelDeg': 0 };
    expect(finding(judge('two-kelps', upright), 'hull/seacock|n3|').outcome).toBe('notApplicable');
  });

  it('runs 1.335 m straight through the open end of a compartment, with a hole when that is a panel', () => {
    // Strainer's outlet 3.8 + .065 = 3.865, pump's inlet 5.4 - .2 = 5.2, both at y 2.2, z .15.
    const drawn = judge('two-kelps');
    near(length(drawn, 'n2'), 1.335);
    expect(drawn.summary.newHoles).toBe(0);
    expect(judge('two-kelps', { 'panels/w': undefined }).summary.newHoles).toBe(1);
    expect(run(judge('two-kelps', { 'panels/w/rule': 'noDrill' }), 'n2').status).toBe('blocked');
  });
});

describe('Section Eight, drawn in sections', () => {
  const drawn = judge('section-eight');

  it('leads a hose round the corner of an L', () => {
    // Ports (.15, .89) and (.89, .15), corner (.3, .3): no less than twice hypot(.15, .59) = 1.2176; straight across 1.0465.
    expect(length(drawn, 'ab')).toBeGreaterThan(1.2176);
    // One bend of R .11 between the two legs of .74: 1.48 - .11 (2 - pi / 2) = 1.4328.
    expect(length(drawn, 'ab')).toBeLessThan(1.4328);
  });

  it('goes 1.25 m straight through what is open, drills what is not, stops where it may not', () => {
    // Pump's port 3.1 + .05, heater's 4.45 - .05.
    near(length(judge('section-eight', {}, SHORTEST), 'cd'), 1.25);
    near(length(judge('section-eight', { 'panels/gap/rule': 'drill' }, SHORTEST), 'cd'), 1.25);
    // Drawn to where a clip holds it, it costs no more than hanging straight in the air does, at .3 m for each metre.
    expect(length(drawn, 'cd')).toBeGreaterThanOrEqual(1.25 - 1e-9);
    expect(run(drawn, 'cd').costs?.surfaceM).toBeLessThan(1.25 * 1.3 - length(drawn, 'cd'));
    expect(run(drawn, 'cd').holes).toEqual([]);
    const drilled = judge('section-eight', { 'panels/gap/rule': 'drill' });
    expect(run(drilled, 'cd').holes.map((h) => h.existing)).toEqual([false]);
    expect(run(judge('section-eight', { 'panels/gap/rule': 'noDrill' }), 'cd').status).toBe('blocked');
  });

  it('is blocked by the sole, and 0.50 m long once the record of the sole is gone', () => {
    expect(run(drawn, 'ef').status).toBe('blocked');
    expect(run(drawn, 'ef').proved).toBe(true);
    const free = judge('section-eight', { 'panels/sole': undefined });
    near(length(free, 'ef'), 0.5); // z -.30 to .20, one above the other
    expect(run(free, 'ef').holes.length).toBe(1);
  });

  it('drops the bowl 225 mm of 300, and 305 when the filter hangs 80 mm higher', () => {
    const key = 'access/service-space|G|drop';
    expect(verdict(drawn, key)).toBe('fail tooLittle');
    near(measured(drawn, key), 0.35 - 0.125);
    const up = judge('section-eight', { 'arrangements/k/places/G/at/2': 0.43 });
    expect(verdict(up, key)).toBe('pass');
    near(measured(up, key), 0.305);
  });
});

describe('Yaw and Again, drawn in profile and turned', () => {
  const drawn = judge('yaw-and-again');

  it('turns a box of 2.0 x .4 m about its middle', () => {
    // x 2..4, y -.2...2 becomes x 2.8..3.2, y -1..1.
    expect(drawn.places.n1?.compartment).toBe('pa'); // (3, .8)
    expect(drawn.places.n2?.compartment).toBeNull(); // (2.2, 0)
  });

  it('turns a thing by roll, then pitch, then yaw, right-handed', () => {
    // +y by roll 90 points up, by pitch 90 forward, by yaw 90 to port: the port sits at y -.4 + .1 and looks at y .3.
    near(length(drawn, 'l1'), 0.6);
    // +x by pitch 90 points down; +y by roll 90 points up: from z .85 - .1 to .15 + .1.
    near(length(drawn, 'l2'), 0.5);
  });

  it('draws the element athwart 50 mm short, and 10 mm free after 60 mm to starboard', () => {
    const key = 'access/service-space|bar|w';
    // Vessel's port end -.15 + .5 = .35, side at .8: .45 of .50.
    expect(verdict(drawn, key)).toBe('fail tooLittle');
    near(measured(drawn, key), 0.45);
    const over = judge('yaw-and-again', { 'arrangements/athwart/places/bar/at/1': -0.21 });
    expect(verdict(over, key)).toBe('pass');
    near(measured(over, key), 0.51);
    // Along the boat the same vessel ends at 6.98 + .5 with the bulkhead at 8.
    const along = judge('yaw-and-again', { currentArrangement: 'along', 'arrangements/along/places/bar/at/0': 6.98 });
    expect(verdict(along, key)).toBe('pass');
    near(measured(along, key), 0.52);
  });

  it('keeps 200 mm between the vessel athwart and the block, 170 after 30 mm', () => {
    // Vessel's side 7.2 + .05, block's end 7.6 - .15.
    near(measured(drawn, 'access/overlap|bar|'), 0.2);
    near(
      measured(judge('yaw-and-again', { 'arrangements/athwart/places/bar/at/0': 7.23 }), 'access/overlap|bar|'),
      0.17,
    );
  });
});

describe('Feed First, with the filters after a feed pump', () => {
  const drawn = judge('feed-first');
  const order = 'water/filter-order|hp|';

  it('accepts strainer, feed pump, coarse, fine, pressure pump', () => {
    expect(verdict(drawn, order)).toBe('pass');
    expect(
      verdict(
        judge('feed-first', { 'arrangements/x/places/co/at/0': 2.9, 'arrangements/x/places/fi/at/0': 2.2 }),
        order,
      ),
    ).toBe(
      'pass', // what is piped counts, not where it stands
    );
  });

  it('finds the fine filter before the coarse one, and the strainer after the feed pump', () => {
    const fineFirst = judge('feed-first', {
      'lines/e3/to/thing': 'fi',
      'lines/e4/from/thing': 'fi',
      'lines/e4/to/thing': 'co',
      'lines/e5/from/thing': 'co',
    });
    expect(verdict(fineFirst, order)).toBe('fail fineBeforeCoarse');
    // The same by their ratings alone.
    expect(verdict(judge('feed-first', { 'parts/co/micron': 5, 'parts/fi/micron': 20 }), order)).toBe(
      'fail fineBeforeCoarse',
    );
    const late = judge('feed-first', {
      'lines/e1/to/thing': 'fp',
      'lines/e2/from/thing': 'fp',
      'lines/e2/to/thing': 'str',
      'lines/e3/from/thing': 'str',
    });
    expect(finding(late, order).outcome).toBe('fail');
  });

  it('advises to bleed a crest that lies below the water', () => {
    // Ends at z -.45 and -.30; clipped up to -.10: some .20 above the higher one, still .10 under.
    const clip = judge('feed-first', {
      'arrangements/x/clipPoints': { e1: { c: { at: [0.55, 0.5, -0.1], order: 1 } } },
    });
    const f = finding(clip, 'water/suction-crest|e1|');
    expect(f.outcome === 'fail' && f.severity).toBe('advice');
    near(measured(clip, 'water/suction-crest|e1|'), 0.2, 0.005);
  });

  it('has 23.53 V of 24 at the motor, through two cables and a fuse', () => {
    const key = 'power/motor-voltage|hp|';
    // Bank x 1.15 to fuse 2.00, fuse 2.12 to pump 3.45, straight: .85 + 1.33, and 50 mm at each of four ends: 2.38 m.
    const shortest = judge('feed-first', {}, SHORTEST);
    near(length(shortest, 'd1') + length(shortest, 'd2'), 2.18);
    // 20 A x (2 x 2.38 m x .0164 / 4 mm2 + .004 ohm) = .4703 V (ISO's .0164 ohm mm2/m, quoted).
    near(measured(shortest, key), 24 - 20 * ((2 * 2.38 * 0.0164) / 4 + 0.004), 0.005);
    const leaking = judge('feed-first', { 'fixtures/fs/electric/leakOhm': 0.024 }, SHORTEST);
    near(measured(leaking, key), 23.5297 - 0.4, 0.005);
    // Drawn to where clips hold them, the cables are longer, and so is what they lose.
    const laid = length(drawn, 'd1') + length(drawn, 'd2') + 0.2;
    expect(laid).toBeGreaterThan(2.38);
    near(measured(drawn, key), 24 - 20 * ((2 * laid * 0.0164) / 4 + 0.004), 0.005);
    expect(verdict(judge('feed-first', { 'parts/hp/electric/leastV': 23.6 }), key)).toBe('fail tooFewVolts');
    expect(verdict(judge('feed-first', { 'parts/hp/electric/dropShare': 0.01 }), key)).toBe('fail tooFewVolts');
    expect(finding(judge('feed-first', { 'lineKinds/c/areaMm2': undefined }), key).outcome).toBe('cannotTell');
  });

  it('is 661 mm deep at 15 degrees and 427 mm from the door', () => {
    const sound = 'hull/seacock|e1|';
    expect(verdict(drawn, sound)).toBe('pass');
    const key = 'access/seacock-handle|sc|';
    near(datum(drawn, sound, 'depthM'), 0.55 * Math.cos(rad(15)) + 0.5 * Math.sin(rad(15)));
    // Handle (.3, .4, -.4); door's edge x .45, y 0: hypot(.15, .4). A door of 200 mm begins at x .7: hypot(.4, .4) > .56.
    near(measured(drawn, key), Math.hypot(0.15, 0.4));
    expect(verdict(drawn, key)).toBe('pass');
    const narrow = judge('feed-first', { 'openings/d/widthM': 0.2 });
    expect(verdict(narrow, key)).toBe('fail outOfReach');
    near(measured(narrow, key), Math.hypot(0.4, 0.4));
    // A check valve is no seacock.
    expect(verdict(judge('feed-first', { 'fixtures/sc/valve/kind': 'check' }), sound)).toBe('fail noSeacock');
  });
});

describe('Yard Ton, in the US practice and 50 mm deeper than drawn', () => {
  const drawn = judge('yard-ton');

  it('floats by its freeboards', () => {
    // Deck edge at z 1.00, freeboard .95 at all four corners.
    near(drawn.attitude.sinkageM, 0.05);
    near(drawn.attitude.trimDeg, 0, 1e-6);
    near(drawn.attitude.listDeg, 0, 1e-6);
    // 120 mm less at both forward corners over 9 m: bow down by asin(.12 / 9) = .764 degrees.
    const bow = judge('yard-ton', {
      'reference/freeboards/q3/freeboardM': 0.83,
      'reference/freeboards/q4/freeboardM': 0.83,
    });
    near(bow.attitude.trimDeg, 0.764, 0.002);
  });

  it('puts the stub 325 mm under at 20 degrees, and is content with a valve in reach', () => {
    const key = 'hull/seacock|bb|';
    // Box of 3.0 m beam, .65 deep: the bilge comes out only at atan(1.3 / 3) = 23.4 degrees, so it turns about z .05.
    near(measured(drawn, key), 1.5 * Math.sin(rad(20)) - 0.2 * Math.cos(rad(20)));
    expect(verdict(drawn, key)).toBe('fail noSeacock');
    const valve = (y: number, z: number): Changes => ({
      'fixtures/T/valve': { states: ['open', 'shut'], normally: 'open', handle: { at: [0, y, z] } },
    });
    // Handle (3, 1.35, .40), hatch's edge (3, 1.1, .8): hypot(.25, .4) = .4717; with the handle at the stub hypot(.35, .55) = .652,
    // for which head and shoulder have to go in: through a hatch of 300 mm square they can't, and .652 is past the .56 of an arm.
    const near1 = judge('yard-ton', valve(-0.1, 0.15));
    expect(verdict(near1, key)).toBe('pass');
    const handle = 'access/seacock-handle|T|';
    expect(verdict(near1, handle)).toBe('pass');
    near(measured(near1, handle), Math.hypot(0.25, 0.4));
    const leaning = judge('yard-ton', valve(0, 0));
    expect(verdict(leaning, handle)).toBe('pass');
    near(measured(leaning, handle), Math.hypot(0.35, 0.55));
    const narrow = { 'openings/h/widthM': 0.3, 'openings/h/heightM': 0.3, 'openings/h/at': [3, 0.95, 0.8] };
    expect(verdict(judge('yard-ton', { ...valve(0, 0), ...narrow }), handle)).toBe('fail outOfReach');
  });

  it('reckons copper by K 10.75 here, by .0164 in the other practice', () => {
    const key = 'power/motor-voltage|P|';
    // Straight 1.85 m, .10 m of making up: 30 A x 2 x 1.95 m / 13.3 mm2 x .017871 (10.75 circular mil ohm per foot).
    near(length(drawn, 'cc'), 1.85);
    near(measured(drawn, key), 12 - (30 * 3.9 * 0.017871) / 13.3, 0.002);
    near(measured(judge('yard-ton', { practice: 'isoSmallCraft' }), key), 12 - (30 * 3.9 * 0.0164) / 13.3, 0.002);
  });
});

describe('Foot and Inch, taken down in inches', () => {
  const drawn = judge('foot-and-inch');
  const INCH = 0.0254;

  it('has a quarter of an inch to spare at the lid', () => {
    // 20 1/2 x 11 3/4 x 11 in through 12 x 12 in.
    expect(verdict(drawn, 'access/way-in|P|')).toBe('pass');
    near(measured(drawn, 'access/way-in|P|'), 0.25 * INCH);
    // 10 1/2 in square: the 11 3/4 in lack an inch and a quarter. (At 11 1/2 in square a tilt might yet help: nobody promises.)
    const small = judge('foot-and-inch', {
      'openings/hatch/widthM': 10.5 * INCH,
      'openings/hatch/heightM': 10.5 * INCH,
    });
    expect(verdict(small, 'access/way-in|P|')).toBe('fail tooBig');
    near(measured(small, 'access/way-in|P|'), -1.25 * INCH);
    const snug = judge('foot-and-inch', {
      'openings/hatch/widthM': 11.5 * INCH,
      'openings/hatch/heightM': 11.5 * INCH,
    });
    expect(finding(snug, 'access/way-in|P|').outcome).not.toBe('pass');
  });

  it('goes on through the berth front only if that is 11 in high', () => {
    const under = judge('foot-and-inch', { currentArrangement: 't', 'openings/inner/heightM': 11.5 * INCH });
    expect(verdict(under, 'access/way-in|P|')).toBe('pass');
    near(measured(under, 'access/way-in|P|'), 0.25 * INCH); // the lid decides
    const low = judge('foot-and-inch', { currentArrangement: 't', 'openings/inner/heightM': 10.5 * INCH });
    expect(verdict(low, 'access/way-in|P|')).toBe('fail tooBig');
    near(measured(low, 'access/way-in|P|'), -0.5 * INCH);
  });

  it('fills the oil in the locker, not under the berth', () => {
    const key = 'access/service-space|P|o';
    expect(verdict(drawn, key)).toBe('pass');
    // Top of the pump .15 + 5 1/2 in, top of the box .40.
    const under = judge('foot-and-inch', { currentArrangement: 't' });
    expect(verdict(under, key)).toBe('fail tooLittle');
    near(measured(under, key), 0.25 - 5.5 * INCH);
  });

  it('measures the pressure hose from port to port, and keeps what was typed', () => {
    // Pump's end 2.5 + 10 1/4 in, vessel's end 3.75 - .35.
    near(length(drawn, 'hh'), 3.4 - 2.5 - 10.25 * INCH);
    const tight = judge('foot-and-inch', { 'lines/hh/supplied/lengthM': 0.635 });
    expect(verdict(tight, 'runs/supplied-length|hh|')).toBe('fail cannotReach');
    const read = readBoat(JSON.stringify(raw('foot-and-inch')));
    expect(read.ok && read.boat.typed?.['parts.P.shape.sizeM.0']).toBe('20 1/2 in');
  });
});
