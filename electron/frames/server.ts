import type { MessagePortMain } from 'electron';
import { HardwareTrials } from '../../core/video/decode/hardware-trials.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { FromProgram, FromWindow, ToProgram } from './contract.ts';
import { FrameDesk } from './frame-desk.ts';

/**
 * Entry of the frame server: a process of its own, so that reading and carrying pictures holds up neither the window nor
 * the book. Its one argument is the folder of the proxies. It trusts what it hears: only our own program and page
 * have its ports.
 */
const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error('frame server: the folder of the proxies is missing');

const program = (message: ToProgram): void => process.parentPort.postMessage(message);
const copies = new ProxyStore(folder);
const decoders = new HardwareTrials(folder);
const desk = new FrameDesk(copies, program, decoders);

/** Copies being deleted; the process does not end in the middle of it. */
let deleting: Promise<unknown> = Promise.resolve();

process.on('uncaughtException', (cause) => {
  program({ type: 'fault', what: 'frame server', stack: cause.stack ?? cause.message });
});

async function keepOnly(sha256s: ReadonlySet<string>, id: number): Promise<void> {
  await Promise.all([copies.keepOnly(sha256s), decoders.keepOnly(sha256s)]).catch((cause: unknown) => {
    program({ type: 'fault', what: 'deleting copies', stack: String(cause) });
  });
  program({ type: 'closed', id });
}

process.parentPort.on('message', ({ data, ports }) => {
  const message = data as FromProgram;
  if (message.type === 'connect') connect(ports[0]);
  else if (message.type === 'open') {
    const { clip, facts, ffmpeg, glance, longest } = message;
    void desk.open(clip, facts, ffmpeg, { glance, longest });
  } else if (message.type === 'close')
    void desk.close(message.clip).then(() => program({ type: 'closed', id: message.id }));
  else if (message.type === 'keep-only') deleting = Promise.all([deleting, keepOnly(message.sha256s, message.id)]);
  else if (message.type === 'rest') void desk.rest();
  else void Promise.all([desk.end(), deleting]).then(() => process.exit(0));
});

function connect(port: MessagePortMain | undefined): void {
  if (port === undefined) return;
  port.on('message', ({ data }) => desk.hear(data as FromWindow));
  desk.connect((message) => port.postMessage(message));
  port.start();
}
