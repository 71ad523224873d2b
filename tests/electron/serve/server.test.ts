import { mkdirSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import path from 'node:path';
import { CONTENT_POLICY } from '@electron/files/content-policy';
import { type BrowserMode, serve } from '@electron/serve/server';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';

describe('browser mode', () => {
  const root = temporaryFolder();
  const folders = { page: path.join(root, 'page'), sampleBoats: path.join(root, 'boats') };
  let mode: BrowserMode;
  beforeAll(async () => {
    for (const folder of ['page/assets', 'boats/complete/sandwort'])
      mkdirSync(path.join(root, folder), { recursive: true });
    writeFileSync(path.join(root, 'page', 'index.html'), '<!doctype html>');
    writeFileSync(path.join(root, 'page', 'assets', 'a.js'), 'export {};');
    writeFileSync(path.join(root, 'boats', 'complete', 'sandwort', 'boat.json'), '{}');
    writeFileSync(path.join(root, 'secret.json'), '"secret"');
    mode = await serve(folders, 0);
  });
  afterAll(() => mode.close());

  /** Sends the path as written: fetch would tidy it first. */
  const get = (requestPath: string, headers: Record<string, string> = {}, method = 'GET') =>
    new Promise<{ status: number; headers: Record<string, unknown>; body: string }>((resolve, reject) => {
      const { port } = new URL(mode.url);
      const asking = request({ host: '127.0.0.1', port, path: requestPath, method, headers }, (response) => {
        let body = '';
        response.setEncoding('utf8').on('data', (text: string) => {
          body += text;
        });
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
      });
      asking.on('error', reject).end();
    });

  it('serves the page with the content policy, and its files by their kind', async () => {
    const page = await get('/');
    expect(page).toMatchObject({ status: 200, body: '<!doctype html>' });
    expect(page.headers).toMatchObject({
      'content-security-policy': CONTENT_POLICY,
      'content-type': 'text/html; charset=utf-8',
      'x-content-type-options': 'nosniff',
    });
    expect((await get('/assets/a.js?v=1')).headers['content-type']).toBe('text/javascript; charset=utf-8');
    expect((await get('/', {}, 'HEAD')).body).toBe('');
  });

  it('serves the sample boats and their list', async () => {
    expect((await get('/sample-boats/complete/sandwort/boat.json')).body).toBe('{}');
    expect(JSON.parse((await get('/sample-boats/index.json')).body)).toEqual([
      { folder: 'complete/sandwort', boat: 'sample-boats/complete/sandwort/boat.json' },
    ]);
  });

  it.each([
    '/../secret.json',
    '/sample-boats/../../secret.json',
    '/%2e%2e/secret.json',
    '/sample-boats/..%2f..%2fsecret.json',
    '/..%5csecret.json',
    '/%252e%252e/secret.json',
    '/%zz',
    '//../secret.json',
  ])('refuses %s', async (way) => {
    const refused = await get(way);
    expect(refused.status).toBe(400);
    expect(refused.body).not.toContain('secret');
  });

  it('has no answer for what is not there', async () => {
    expect((await get('/nothing.js')).status).toBe(404);
    expect((await get('/assets')).status).toBe(404);
  });

  it('refuses a foreign Host, so that no page elsewhere can borrow this address', async () => {
    expect((await get('/', { host: 'evil.test' })).status).toBe(403);
    expect((await get('/', { host: '127.0.0.1:1' })).status).toBe(403);
    expect((await get('/', { host: `localhost:${new URL(mode.url).port}` })).status).toBe(200);
  });

  it('is read only', async () => {
    for (const method of ['POST', 'PUT', 'DELETE']) expect((await get('/', {}, method)).status).toBe(405);
  });

  it('listens on this machine alone, and on another port when the wanted one is taken', async () => {
    expect(new URL(mode.url).hostname).toBe('127.0.0.1');
    const second = await serve(folders, Number(new URL(mode.url).port));
    expect(second.url).not.toBe(mode.url);
    await new Promise<void>((resolve, reject) => {
      const socket = connect(Number(new URL(second.url).port), '127.0.0.1', () => {
        socket.destroy();
        resolve();
      });
      socket.on('error', reject);
    });
    await second.close();
  });
});
