import { turns } from '../turns';
import { type StudyChannel, serveStudies } from './serve';

/** Entry of the worker that owns no boat: what it is asked comes with all that the answer needs. */
serveStudies(self as unknown as StudyChannel, turns());
