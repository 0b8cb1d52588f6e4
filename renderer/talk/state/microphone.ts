import { say } from '../../../core/model/say.ts';
import { ask } from '../../api.ts';
import captureUrl from './capture-worklet.ts?worker&url';

/** Samples a second of a take. */
export const SAMPLE_RATE = 48_000;

export interface MicrophoneChoice {
  readonly id: string;
  readonly name: string;
}

/** A microphone that is listened to. */
export interface OpenMicrophone {
  /** Listens to another one from now on. @throws what the browser says where it cannot be had. */
  change(id: string | null): Promise<void>;
  /** All that can be chosen, as the system names them. */
  choices(): Promise<readonly MicrophoneChoice[]>;
  /** Lets go of it, and takes the right to listen back. */
  close(): Promise<void>;
}

/**
 * Opens a microphone (null: the system's own choice) and calls back with every heap of samples within -1..1. The sound is
 * taken as it is: what a call would filter out belongs to the coach's voice.
 * `gone` hears of it when the one that is listened to is pulled out.
 * @throws what the browser says where there is none or it may not be had; the right to listen is taken back then.
 */
export async function openMicrophone(
  id: string | null,
  hear: (samples: Float32Array) => void,
  gone: () => void,
): Promise<OpenMicrophone> {
  await ask('talk/microphone', { open: true });
  let context: AudioContext | null = null;
  let stream: MediaStream | null = null;
  let source: MediaStreamAudioSourceNode | null = null;
  const close = async (): Promise<void> => {
    source?.disconnect();
    for (const track of stream?.getTracks() ?? []) track.stop();
    await context?.close().catch(() => undefined);
    await ask('talk/microphone', { open: false });
  };
  try {
    const opened = new AudioContext({ sampleRate: SAMPLE_RATE });
    context = opened;
    await opened.audioWorklet.addModule(captureUrl);
    const capture = new AudioWorkletNode(opened, 'capture', { numberOfInputs: 1, numberOfOutputs: 1 });
    capture.port.onmessage = ({ data }: MessageEvent<Float32Array>) => hear(data);
    // A node that leads nowhere is not run. It puts nothing out, so nobody hears himself.
    capture.connect(opened.destination);
    const change = async (wanted: string | null): Promise<void> => {
      const next = await navigator.mediaDevices.getUserMedia({
        audio: {
          ...{ echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 },
          ...(wanted === null ? {} : { deviceId: { exact: wanted } }),
        },
        video: false,
      });
      source?.disconnect();
      for (const track of stream?.getTracks() ?? []) track.stop();
      stream = next;
      source = opened.createMediaStreamSource(next);
      source.connect(capture);
      // Not where we stop it ourselves.
      for (const track of next.getTracks()) track.addEventListener('ended', () => stream === next && gone());
    };
    await change(id);
    return { change, choices, close };
  } catch (error) {
    await close();
    throw error;
  }
}

async function choices(): Promise<readonly MicrophoneChoice[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices.flatMap(({ kind, deviceId, label }, place) =>
    kind === 'audioinput' && deviceId !== 'default' && deviceId !== 'communications'
      ? [{ id: deviceId, name: label === '' ? say`Microphone ${String(place + 1)}` : label }]
      : [],
  );
}

export const NO_MICROPHONE = say`No microphone was found. Plug one in and try again, or record without sound.`;

/** Why a microphone cannot be had, in words that say what to do. */
export function microphoneTrouble(error: unknown): string {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return NO_MICROPHONE;
  if (name === 'NotAllowedError')
    return say`This computer does not let Baybook use the microphone. Allow it in the system’s privacy settings, or record without sound.`;
  return say`The microphone does not answer. Another program may be using it. Try again, or record without sound.`;
}
