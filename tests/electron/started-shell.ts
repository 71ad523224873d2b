import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, vi } from 'vitest';
import type { createElectronStub, StubWindow } from '../support/electron-stub.cjs';

/** A machine that is busy opens a window late: that is no fault of the shell. */
export const WINDOW_PATIENCE = { timeout: 30_000 };

/** Lays out what the shell reads beside itself, starts it over the stub (which the test has put in place of electron), and gives its window. */
export async function startedShell(root: string, stub: ReturnType<typeof createElectronStub>): Promise<StubWindow> {
  mkdirSync(path.join(root, 'dist', 'renderer'), { recursive: true });
  mkdirSync(path.join(root, 'sample-boats', 'minimal', 'skiff'), { recursive: true });
  writeFileSync(path.join(root, 'dist', 'renderer', 'index.html'), '<!doctype html>');
  writeFileSync(path.join(root, 'sample-boats', 'minimal', 'skiff', 'boat.json'), '{"name":"Skiff"}');
  writeFileSync(path.join(root, 'secret.json'), '"secret"');
  await import('../../electron/main/main');
  await vi.waitFor(() => expect(stub.noted.windows.length).toBe(1), WINDOW_PATIENCE);
  const [first] = stub.noted.windows;
  if (!first) throw new Error('no window');
  return first;
}
