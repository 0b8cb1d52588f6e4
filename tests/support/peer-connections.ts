import type { Page } from 'playwright-core';
import type { Listening } from './listening.ts';

/**
 * Tries to reach `listening` by peer connections of every kind, from a world of scripts beside the page's own: there
 * Chromium's constructors are as it made them, whatever the page was denied. Answers how each of them ended.
 */
export async function tryPeerConnections(page: Page, { tcpPort, udpPort }: Listening): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  const { frameTree } = await session.send('Page.getFrameTree');
  const world = await session.send('Page.createIsolatedWorld', { frameId: frameTree.frame.id, worldName: 'beside' });
  const servers = [
    `turn:127.0.0.1:${String(tcpPort)}?transport=tcp`,
    `turn:localhost:${String(tcpPort)}?transport=tcp`,
    `turns:127.0.0.1:${String(tcpPort)}?transport=tcp`,
    `turn:127.0.0.1:${String(udpPort)}?transport=udp`,
    `stun:127.0.0.1:${String(udpPort)}`,
  ];
  const { result, exceptionDetails } = await session.send('Runtime.evaluate', {
    contextId: world.executionContextId,
    awaitPromise: true,
    returnByValue: true,
    expression: `(${tryAll.toString()})(${JSON.stringify(servers)})`,
  });
  await session.detach();
  if (exceptionDetails !== undefined) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
  return result.value as string[];
}

/** Runs in the page. Each gets three seconds to gather where it could be reached; an answer on loopback takes none. */
async function tryAll(servers: readonly string[]): Promise<string[]> {
  return Promise.all(
    servers.map(async (urls) => {
      const peer = new RTCPeerConnection({ iceServers: [{ urls, username: 'marlowe', credential: 'quince' }] });
      const candidates: string[] = [];
      peer.onicecandidate = ({ candidate }) => {
        if (candidate !== null && candidate.candidate !== '') candidates.push(candidate.candidate);
      };
      peer.createDataChannel('words');
      await peer.setLocalDescription(await peer.createOffer());
      await new Promise((resolve) => setTimeout(resolve, 3000));
      const state = peer.iceGatheringState;
      peer.close();
      return `${urls} ${state}, ${candidates.length === 0 ? 'nowhere' : 'somewhere'} to be reached`;
    }),
  );
}
