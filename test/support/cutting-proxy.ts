import { type AddressInfo, connect, createServer, type Socket } from 'node:net';

/** Stands between programs and their PostgreSQL server, and cuts what goes through. */
export type CuttingProxy = {
  /** The URL of a database, by way of this proxy. */
  readonly through: (url: string) => string;
  /** Cuts every connection there is. */
  readonly cut: () => void;
  /** From now on nothing gets through, and nobody is told; null lets all through again. */
  readonly hold: (holds: boolean) => void;
  /**
   * The next so many changes are saved by the server, and the connection is cut before it can say so: whoever saved them
   * cannot know.
   */
  readonly cutAtSaving: (times: number) => void;
  readonly close: () => Promise<void>;
};

/** How the client asks for a change to be saved, in the words of the protocol ("Message Formats", Query). */
const SAVING = Buffer.from('commit\0');

export async function openCuttingProxy(url: string): Promise<CuttingProxy> {
  const target = new URL(url);
  const pairs = new Set<readonly [Socket, Socket]>();
  let holding = false;
  let cuts = 0;
  const server = createServer((client) => {
    const onward = connect(Number(target.port), target.hostname);
    const pair = [client, onward] as const;
    pairs.add(pair);
    let cutting = false;
    client.on('data', (data) => {
      if (cuts > 0 && data.includes(SAVING)) {
        cuts -= 1;
        cutting = true;
      }
      onward.write(data);
    });
    onward.on('data', (data) => {
      if (cutting) client.destroy();
      else client.write(data);
    });
    for (const each of pair) {
      if (holding) each.pause();
      each.on('error', () => undefined);
      each.on('close', () => {
        pairs.delete(pair);
        client.destroy();
        onward.destroy();
      });
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const cut = () => {
    for (const [client, onward] of pairs) {
      client.destroy();
      onward.destroy();
    }
  };
  return {
    through: (whole) => {
      const changed = new URL(whole);
      changed.port = String(port);
      return changed.href;
    },
    cut,
    hold: (holds) => {
      holding = holds;
      for (const each of [...pairs].flat()) {
        if (holds) each.pause();
        else each.resume();
      }
    },
    cutAtSaving: (times) => {
      cuts = times;
    },
    close: async () => {
      cut();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
