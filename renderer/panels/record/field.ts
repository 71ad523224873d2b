import { problemOfIssue } from '@core/boat/problem-of-issue';
import type { Field } from '@core/boat/record/fields';
import type { Boat } from '@core/boat/schema/boat';
import type { z } from 'zod';
import { ungrouped } from '../fields/entries';
import type { Read } from '../fields/QuantityField';
import { type Path, useSubject } from './edit';
import { labelOfKey } from './words';

export interface FieldProps {
  readonly boat: Boat;
  readonly path: Path;
  readonly field: Field;
  /** Undefined: not said. */
  readonly value: unknown;
  /** Heads the row; a screen reader hears whose it is, too. */
  readonly label?: string | undefined;
}

/** Words over the field, and what a screen reader hears: those and whose value it is. */
export function useLabels({ field, label }: { readonly field: Field; readonly label: string | undefined }): {
  readonly words: string;
  readonly spoken: string;
} {
  const subject = useSubject();
  const words = label ?? labelOfKey(field.key);
  return { words, spoken: `${words} of ${subject}` };
}

/** What the schema says against a value, in the words of the reader of files; null where it may stand. */
export function refusal(schema: z.core.$ZodType, key: string, value: unknown): string | null {
  const judged = (schema as z.ZodType).safeParse(value);
  const issue = judged.success ? undefined : judged.error.issues[0];
  if (!issue) return null;
  const { limit } = problemOfIssue({ ...issue, path: [key, ...issue.path] }, { [key]: value });
  return limit.charAt(0).toUpperCase() + limit.slice(1);
}

/** A number without a unit: the comma of a decimal is allowed. */
export function plainNumber(typed: string): Read {
  const value = Number(ungrouped(typed).replace('\u2212', '-').replace(',', '.'));
  return typed.trim() !== '' && Number.isFinite(value)
    ? { ok: true, value }
    : { ok: false, message: 'Expected a number' };
}
