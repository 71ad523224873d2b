import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawScene } from './draw-scenes';
import type { SteinerAnswer, SteinerScene } from './scene';
import { routedM } from './taut-hose';

/**
 * Shortest ways of a point among boxes, tabulated by networkx over a dense Steiner graph (shortest.py beside this file says how to
 * do it again). Derived: a hose keeps clear of what a point may touch, so no run is shorter than the true shortest way, and that is
 * no shorter than the relaxed path less what its marks can have added. From above there is no more than the product's own 1 %:
 * a hose of 2 mm and bends of 2.5 mm lose under 0.1 % to its thickness.
 */
const SCENES = new URL('scenes.json', import.meta.url);
const COUNT = 20;
const MOST_OVER = 1.01;

const drawn = Array.from({ length: COUNT }, (_, k) => drawScene(1 + k));
if (process.env.STEINER_WRITE) writeFileSync(SCENES, JSON.stringify(drawn));
const scenes: SteinerScene[] = JSON.parse(readFileSync(SCENES, 'utf8'));
const answers: SteinerAnswer[] = JSON.parse(readFileSync(new URL('answers.json', import.meta.url), 'utf8'));

describe('the table', () => {
  it('is of the scenes that are drawn here, and of each there is an answer', () => {
    expect(scenes).toEqual(drawn);
    expect(answers.map(({ id }) => id)).toEqual(scenes.map(({ id }) => id));
  });

  it('holds ways with corners that are as long as they say, from end to end', () => {
    for (const [k, { path, lengthM, relaxedM, slackM }] of answers.entries()) {
      const { from, to } = scenes[k] as SteinerScene;
      expect([path[0], path.at(-1)]).toEqual([from, to]);
      expect(path.length).toBeGreaterThan(2);
      const sum = path.slice(1).reduce((total, [x, y, z], i) => {
        const [a, b, c] = path[i] as (typeof path)[number];
        return total + Math.hypot(x - a, y - b, z - c);
      }, 0);
      expect(sum).toBeCloseTo(lengthM, 4);
      expect(relaxedM).toBeLessThanOrEqual(lengthM);
      expect(slackM).toBeLessThan(0.002);
    }
  });
});

it.each(answers)('a thin supple hose in scene $id is as long as the shortest way', (answer) => {
  const lengthM = routedM(scenes[answers.indexOf(answer)] as SteinerScene, answer);
  expect(lengthM).toBeGreaterThanOrEqual(answer.relaxedM - answer.slackM);
  expect(lengthM).toBeLessThanOrEqual(MOST_OVER * answer.lengthM);
});
