import { z } from 'zod';
import * as portable from '../../base/portable';

/** Scalars of the boat file. Saved keys carry the unit; all values are SI except angles in degrees and pressures in bar. */
const finite = z.number().finite();
export const metres = finite.min(-1000).max(1000);
export const length = finite.min(0).max(1000);
export const size = finite.gt(0).max(1000);
export const mass = finite.min(0).max(1_000_000);
export const angle = finite.min(-360).max(360);
export const fraction = finite.min(0).max(1);
export const amount = finite.min(0).max(1e9);
export const text = z.string().max(4000);
export const name = z.string().min(1).max(120);

/** Names that every JavaScript object answers to would shadow a missing record. */
const RESERVED = new Set(Object.getOwnPropertyNames(Object.prototype));
export const ID_PATTERN = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/;
export const id = z
  .string()
  .regex(ID_PATTERN)
  .refine((value) => !RESERVED.has(value), { message: 'is a reserved word' });

export const point = z
  .tuple([metres, metres, metres])
  .describe(
    '[x, y, z] in metres, boat frame: x forward from the aftmost point, y to port, z up from the floating waterline',
  );
export const localPoint = z
  .tuple([metres, metres, metres])
  .describe("[x, y, z] in metres from the centre of the thing's envelope, before its turn");
export const direction = z
  .tuple([finite.min(-1e6).max(1e6), finite.min(-1e6).max(1e6), finite.min(-1e6).max(1e6)])
  .refine((v) => portable.hypot(...v) > 1e-9, { message: 'has no length' })
  .describe('[x, y, z] direction, any length but zero');
export const sides = z.tuple([size, size, size]).describe('[along x, along y, along z] in metres, before the turn');
export const point2 = z.tuple([metres, metres]);

export const record = <T extends z.ZodType>(value: T) => z.record(id, value);

/** How a value was taken. The grade counts as two standard deviations. */
export const GRADES = ['measured', 'taped', 'scaled', 'guessed'] as const;
export const grade = z
  .enum(GRADES)
  .describe(
    'measured 5 mm, taped round a corner 20 mm, scaled from a picture 40 mm, guessed 100 mm, unless boat.accuracy says otherwise; counts as two standard deviations',
  );
