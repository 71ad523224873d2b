import { MessageChannel } from 'node:worker_threads';
import { connectStudies } from '@renderer/store/connections';
import { type StudyChannel as ClientChannel, studiesOver } from '@renderer/worker/studies/client';
import { type StudyChannel as ServerChannel, serveStudies } from '@renderer/worker/studies/serve';

/** Studies as in the window, with structured clones on the way, but worked on in this process. Gives what ends it. */
export function studiesAtHand(): () => void {
  const { port1, port2 } = new MessageChannel();
  serveStudies(port2 as unknown as ServerChannel, (turn) => setTimeout(turn));
  connectStudies(studiesOver(port1 as unknown as ClientChannel));
  return () => {
    connectStudies(null);
    port1.close();
  };
}
