import { serveEngine, type WorkerChannel } from './engine';
import { turns } from './turns';

/** Entry of the worker that owns the open boat. */
serveEngine(self as unknown as WorkerChannel, turns());
