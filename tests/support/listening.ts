import { createSocket } from 'node:dgram';
import { createServer } from 'node:net';
import type { AddressInfo, Socket } from 'node:net';

/** Ears on this machine's loopback: what any program says to these two ports is heard, whatever it speaks. */
export interface Listening {
  readonly tcpPort: number;
  readonly udpPort: number;
  /** Everything that arrived, as bytes; a connection that said nothing counts as one entry without bytes. */
  heard(): readonly Buffer[];
  close(): void;
}

export async function listenOnLoopback(): Promise<Listening> {
  const heard: Buffer[] = [];
  const open = new Set<Socket>();
  const tcp = createServer((socket) => {
    heard.push(Buffer.alloc(0));
    open.add(socket);
    socket.on('data', (data) => heard.push(data)).on('error', () => undefined);
  });
  const udp = createSocket('udp4').on('message', (data) => heard.push(data));
  await new Promise<void>((listening) => tcp.listen(0, '127.0.0.1', listening));
  await new Promise<void>((listening) => udp.bind(0, '127.0.0.1', listening));
  return {
    tcpPort: (tcp.address() as AddressInfo).port,
    udpPort: udp.address().port,
    heard: () => heard,
    close() {
      for (const socket of open) socket.destroy();
      tcp.close();
      udp.close();
    },
  };
}
