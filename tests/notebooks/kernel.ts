import { type ChildProcess, spawn } from 'node:child_process';
import { createHmac, randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Dealer, Subscriber } from 'zeromq';
import { kernelCommand, NOTEBOOKS } from '../../packages/sim-notebooks/src/jupyter/kernelFolder.js';

/** An output of a cell, as a notebook file keeps it. */
export type Output =
  | { readonly output_type: 'stream'; readonly name: 'stdout' | 'stderr'; text: string }
  | {
      readonly output_type: 'display_data';
      data: Readonly<Record<string, unknown>>;
      readonly metadata: object;
      /** Of outputs that are written anew; not kept in files. */
      readonly display?: string;
    };

/** What became of a cell. */
export interface Executed {
  readonly status: string;
  readonly outputs: readonly Output[];
}

interface Message {
  readonly type: string;
  readonly parent: string;
  readonly content: Readonly<Record<string, unknown>>;
}

const DELIMITER = '<IDS|MSG>';
const KEY = 'a key for tests';
const NAMES = ['shell', 'iopub', 'control', 'stdin', 'hb'] as const;

/** Milliseconds a cell may take unless told otherwise. */
const LIMIT = 60_000;

/** A port that is free now. */
function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

/**
 * A kernel as Jupyter would start it, spoken to by the protocol of Jupyter over zeromq. Whatever is waited for has a limit of
 * time.
 */
export class Kernel {
  private readonly child: ChildProcess;
  private readonly shell = new Dealer({ linger: 0 });
  private readonly control = new Dealer({ linger: 0 });
  private readonly iopub = new Subscriber({ linger: 0 });
  private readonly folder: string;
  private readonly listeners = new Set<(message: Message) => void>();
  private readonly exited: Promise<void>;
  private stderr = '';

  private constructor(child: ChildProcess, folder: string) {
    this.child = child;
    this.folder = folder;
    child.stderr?.on('data', (part: Buffer) => (this.stderr += part.toString()));
    this.exited = new Promise((resolve) => child.on('exit', () => resolve()));
  }

  /** Starts a kernel in a folder and waits until it answers. */
  static async start(cwd: string = NOTEBOOKS): Promise<Kernel> {
    const ports = Object.fromEntries(
      await Promise.all(NAMES.map(async (name) => [`${name}_port`, await freePort()] as const)),
    );
    const folder = mkdtempSync(join(tmpdir(), 'lapwright-kernel-'));
    const file = join(folder, 'connection.json');
    writeFileSync(
      file,
      JSON.stringify({
        ...ports,
        ip: '127.0.0.1',
        transport: 'tcp',
        key: KEY,
        signature_scheme: 'hmac-sha256',
      }),
    );
    const [program = '', ...args] = kernelCommand();
    const child = spawn(
      program,
      args.map((arg) => arg.replace('{connection_file}', file)),
      { cwd, stdio: ['ignore', 'ignore', 'pipe'] },
    );
    const kernel = new Kernel(child, folder);
    const address = (name: string): string => `tcp://127.0.0.1:${ports[`${name}_port`]}`;
    kernel.shell.connect(address('shell'));
    kernel.control.connect(address('control'));
    kernel.iopub.connect(address('iopub'));
    kernel.iopub.subscribe('');
    for (const socket of [kernel.shell, kernel.control, kernel.iopub]) void kernel.listen(socket);
    await kernel.ready();
    return kernel;
  }

  private async listen(socket: AsyncIterable<readonly Buffer[]>): Promise<void> {
    for await (const frames of socket) {
      const at = frames.findIndex((frame) => frame.toString() === DELIMITER);
      const [header, parent, , content] = frames
        .slice(at + 2)
        .map((frame) => JSON.parse(frame.toString()) as Readonly<Record<string, unknown>>);
      const message = {
        type: header?.['msg_type'] as string,
        parent: (parent?.['msg_id'] as string | undefined) ?? '',
        content: content ?? {},
      };
      for (const listener of this.listeners) listener(message);
    }
  }

  /** Sends a request and gives the number under which its messages come back. */
  private async send(socket: Dealer, type: string, content: object): Promise<string> {
    const id = randomUUID();
    const header = {
      msg_id: id,
      session: 'tests',
      username: 'tests',
      date: new Date().toISOString(),
      msg_type: type,
      version: '5.3',
    };
    const parts = [header, {}, {}, content].map((part) => JSON.stringify(part));
    const hmac = createHmac('sha256', KEY);
    for (const part of parts) hmac.update(part);
    await socket.send([DELIMITER, hmac.digest('hex'), ...parts]);
    return id;
  }

  /** Waits until `done` says so of some message, or throws when it takes too long. */
  private async until(
    what: string,
    limit: number,
    begin: () => Promise<string>,
    done: (message: Message) => boolean,
  ): Promise<void> {
    const early: Message[] = [];
    let id: string | undefined;
    let finish = (): void => undefined;
    const finished = new Promise<void>((resolve) => (finish = resolve));
    const listener = (message: Message): void => {
      if (id === undefined) early.push(message);
      else if (message.parent === id && done(message)) finish();
    };
    this.listeners.add(listener);
    let timer: NodeJS.Timeout | undefined;
    const tooLong = new Promise<never>((_, reject) => {
      timer = setTimeout(
        () => reject(new Error(`${what}: no answer within ${limit / 1000} s. ${this.stderr}`)),
        limit,
      );
    });
    const died = this.exited.then(() => {
      throw new Error(`${what}: the kernel ended. ${this.stderr}`);
    });
    died.catch(() => undefined);
    try {
      id = await begin();
      for (const message of early) listener(message);
      await Promise.race([finished, tooLong, died]);
    } finally {
      clearTimeout(timer);
      this.listeners.delete(listener);
    }
  }

  /** Asks for a reply on the shell. */
  private async ask(
    type: string,
    content: object,
    limit = 20_000,
  ): Promise<Readonly<Record<string, unknown>>> {
    let reply: Readonly<Record<string, unknown>> = {};
    await this.until(
      type,
      limit,
      () => this.send(this.shell, type, content),
      (message) => {
        if (message.type !== type.replace('request', 'reply')) return false;
        reply = message.content;
        return true;
      },
    );
    return reply;
  }

  /** Until both the shell and the outputs are connected: what is published before is lost. */
  private async ready(): Promise<void> {
    for (let attempt = 0; ; attempt++) {
      try {
        let [replied, heard] = [false, false];
        await this.until(
          'kernel_info_request',
          attempt === 0 ? 60_000 : 300,
          () => this.send(this.shell, 'kernel_info_request', {}),
          (message) => {
            replied ||= message.type === 'kernel_info_reply';
            heard ||= message.type === 'status' && message.content['execution_state'] === 'idle';
            return replied && (heard || attempt === 0);
          },
        );
        if (heard) return;
      } catch (error) {
        if (attempt === 0 || attempt >= 100) throw error;
      }
    }
  }

  /**
   * Runs a cell to its end.
   *
   * @param options.watch called with all outputs so far whenever there is something new
   */
  async execute(
    code: string,
    {
      limit = LIMIT,
      watch,
    }: { readonly limit?: number; readonly watch?: (outputs: readonly Output[]) => void } = {},
  ): Promise<Executed> {
    const outputs: Output[] = [];
    let status = '';
    let idle = false;
    await this.until(
      'execute_request',
      limit,
      () =>
        this.send(this.shell, 'execute_request', {
          code,
          silent: false,
          store_history: true,
          user_expressions: {},
          allow_stdin: false,
          stop_on_error: true,
        }),
      ({ type, content }) => {
        if (type === 'execute_reply') status = String(content['status']);
        else if (type === 'status') idle ||= content['execution_state'] === 'idle';
        else {
          keep(outputs, type, content);
          watch?.(outputs);
        }
        return status !== '' && idle;
      },
    );
    // For a fifth of a second after an error this kernel answers all that comes with "abort".
    if (status !== 'ok') await new Promise((resolve) => setTimeout(resolve, 300));
    return { status, outputs: outputs.map(withoutDisplay) };
  }

  /** What could stand at the end of this code. */
  async complete(code: string): Promise<readonly string[]> {
    const { matches } = await this.ask('complete_request', { code, cursor_pos: code.length });
    return matches as readonly string[];
  }

  /** What is known of the name at the end of this code, or at a place in it. */
  async inspect(code: string, cursor: number = code.length): Promise<string> {
    const { found, data } = await this.ask('inspect_request', {
      code,
      cursor_pos: cursor,
      detail_level: 0,
    });
    return found === true ? String((data as Record<string, unknown>)['text/plain']) : '';
  }

  /** The interrupt button. */
  interrupt(): void {
    this.child.kill('SIGINT');
  }

  /**
   * Asks the kernel to end, as Jupyter does. Jupyter kills one that has not after five seconds; here it has more time,
   * because tests share the machine.
   *
   * @returns whether it ended by itself
   */
  async close(): Promise<boolean> {
    let killed = false;
    const timer = setTimeout(() => {
      killed = true;
      this.child.kill('SIGKILL');
    }, 20_000);
    if (this.child.exitCode === null && this.child.signalCode === null) {
      await this.send(this.control, 'shutdown_request', { restart: false });
      await this.exited;
    }
    clearTimeout(timer);
    for (const socket of [this.shell, this.control, this.iopub]) socket.close();
    rmSync(this.folder, { recursive: true, force: true });
    return !killed;
  }
}

/** Adds a message to the outputs of a cell as a front end does: text in one piece, what is written anew in its place. */
function keep(outputs: Output[], type: string, content: Readonly<Record<string, unknown>>): void {
  const last = outputs.at(-1);
  if (type === 'stream') {
    const name = content['name'] === 'stderr' ? 'stderr' : 'stdout';
    const text = String(content['text']);
    if (last?.output_type === 'stream' && last.name === name) last.text += text;
    else outputs.push({ output_type: 'stream', name, text });
  } else if (type === 'display_data' || type === 'update_display_data') {
    const data = content['data'] as Readonly<Record<string, unknown>>;
    const display = (content['transient'] as { display_id?: string } | undefined)?.display_id;
    if (type === 'display_data')
      outputs.push({
        output_type: 'display_data',
        data,
        metadata: {},
        ...(display !== undefined && { display }),
      });
    else
      for (const output of outputs)
        if (output.output_type === 'display_data' && output.display === display) output.data = data;
  }
}

function withoutDisplay(output: Output): Output {
  if (output.output_type === 'stream') return output;
  const { display: _, ...kept } = output;
  return kept;
}
