import { DockerfileParser, type Instruction, type ModifiableInstruction } from 'dockerfile-ast';
import { nameFaults, startOf } from './environment.ts';
import { isInRepository } from './repository.ts';

type Step = { readonly word: string; readonly flags: readonly string[]; readonly rest: string };
type Stage = { readonly from: string; readonly steps: readonly Step[] };

/** The steps of a Dockerfile: what stands before the first stage, and every stage with what it starts from. */
export function stagesOf(text: string): { readonly before: readonly Step[]; readonly stages: readonly Stage[] } {
  const before: Step[] = [];
  const stages: { from: string; steps: Step[] }[] = [];
  for (const step of DockerfileParser.parse(text).getInstructions().map(stepOf)) {
    if (step.word === 'FROM') stages.push({ from: step.rest, steps: [] });
    else (stages.at(-1)?.steps ?? before).push(step);
  }
  return { before, stages };
}

function stepOf(instruction: Instruction): Step {
  return {
    word: instruction.getKeyword(),
    flags: 'getFlags' in instruction ? (instruction as ModifiableInstruction).getFlags().map(String) : [],
    rest: (instruction.getArgumentsContent() ?? '').trim(),
  };
}

/** The words of an exec form, ["like", "this"]; null for a line that a shell would read. */
export function execForm(text: string): readonly string[] | null {
  try {
    return JSON.parse(text) as readonly string[];
  } catch {
    return null;
  }
}

/** NAME=value pairs of an ENV or LABEL step. */
function pairsOf(steps: readonly Step[], word: string): Readonly<Record<string, string>> {
  const pairs = steps
    .filter((step) => step.word === word)
    .flatMap(({ rest }) => [...rest.matchAll(/([\w.]+)=("[^"]*"|\S+)/g)])
    .map(([, name = '', value = '']) => [name, value.replaceAll('"', '')] as const);
  return Object.fromEntries(pairs);
}

/** The command that a container's health is asked with. */
export function healthCommand(text: string): readonly string[] | null {
  const check = stagesOf(text)
    .stages.at(-1)
    ?.steps.find(({ word }) => word === 'HEALTHCHECK');
  return check === undefined ? null : execForm(check.rest.replace(/^CMD\s+/, ''));
}

/** Everything in which the image would not be as it must, `ignored` being the text that says what is left out of it. */
export function imageFaults(text: string, ignored: string): readonly string[] {
  const { before, stages } = stagesOf(text);
  const last = stages.at(-1)?.steps ?? [];
  return [...baseFaults(before, stages), ...copyFaults(stages, ignored), ...buildFaults(stages), ...runFaults(last)];
}

function baseFaults(before: readonly Step[], stages: readonly Stage[]): readonly string[] {
  const args = before.filter(({ word }) => word === 'ARG').map(({ rest }) => rest);
  const faults: string[] = [];
  if (!args.includes('NODE_DIGEST')) faults.push('has no digest to be told, or one to fall back on');
  if (!args.some((arg) => /^NODE_IMAGE=node:24-[a-z-]+$/.test(arg)))
    faults.push('is not built on the runtime it needs');
  for (const { from } of stages)
    if (!/^\$\{NODE_IMAGE\}@\$\{NODE_DIGEST\}(\sAS \w+)?$/.test(from)) faults.push(`starts from ${from}`);
  return faults;
}

/** Copied from the checkout: only what is there and let in, and nothing is let in that is not copied. */
function copyFaults(stages: readonly Stage[], ignored: string): readonly string[] {
  const lines = ignored.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  const letIn = lines.filter((line) => line.startsWith('!')).map((line) => line.slice(1));
  const steps = stages.flatMap((stage) => stage.steps);
  const copied = steps
    .filter(({ word, flags }) => word === 'COPY' && !flags.some((flag) => flag.startsWith('--from=')))
    .flatMap(({ rest }) => rest.split(/\s+/).slice(0, -1));
  const faults: string[] = [];
  if (lines[0] !== '*') faults.push('lets in whatever lies about');
  if (steps.some(({ word }) => word === 'ADD')) faults.push('adds what it does not unpack in sight');
  for (const path of copied) {
    if (!isInRepository(path)) faults.push(`copies ${path}, which is not there`);
    if (!letIn.includes(path)) faults.push(`copies ${path}, which is left out`);
  }
  for (const path of letIn) if (!copied.includes(path)) faults.push(`lets in ${path} for nothing`);
  return faults;
}

function buildFaults(stages: readonly Stage[]): readonly string[] {
  const runs = stages.flatMap((stage) => stage.steps).filter(({ word }) => word === 'RUN');
  const faults: string[] = [];
  for (const words of ['npm ci', '--omit=dev', '--ignore-scripts'])
    if (!runs.some(({ rest }) => rest.includes(words))) faults.push(`installs without ${words}`);
  if (!runs.some(({ rest }) => rest.includes('selftest'))) faults.push('is not tried before it is kept');
  const warmed = runs.flatMap(({ rest }) => [...rest.matchAll(/'([a-z-]+\/[a-z-]+)'/g)]).map(([, name]) => name);
  if (warmed.length === 0) faults.push('has no compiled code');
  for (const name of warmed)
    if (!isInRepository(`adapters/${name}.ts`)) faults.push(`loads adapters/${name}.ts, which is not there`);
  return faults;
}

function runFaults(steps: readonly Step[]): readonly string[] {
  const faults: string[] = [];
  const told = pairsOf(steps, 'ENV');
  const [user] = steps.filter(({ word }) => word === 'USER').slice(-1);
  if (!/^[1-9]\d*:[1-9]\d*$/.test(user?.rest ?? '')) faults.push('runs as root, or as a user without a number');
  if (steps.some(({ word }) => word === 'RUN')) faults.push('changes what it was given');
  const owned = steps.filter(({ word, flags }) => word === 'COPY' && flags.some((flag) => flag.startsWith('--chown')));
  if (owned.some(({ rest }) => !rest.endsWith(' /data'))) faults.push('lets a program change itself');
  faults.push(...nameFaults(told));
  const command = execForm(steps.find(({ word }) => word === 'CMD')?.rest ?? '') ?? [];
  if (command[0] !== 'node' || !isInRepository(command[1] ?? '')) faults.push('starts no program');
  const check = steps.find(({ word }) => word === 'HEALTHCHECK')?.rest ?? '';
  if (!/^CMD\s+\["node"/.test(check) || !check.includes('/healthz')) faults.push('is not asked for its health');
  if (!steps.some(({ word, rest }) => word === 'STOPSIGNAL' && rest === 'SIGTERM')) faults.push('is not told to end');
  const open = steps.filter(({ word }) => word === 'EXPOSE').flatMap(({ rest }) => rest.split(/\s+/));
  const listens = [told.DISCORD_PORT, told.SLACK_PORT, told.WATCH_PORT].map((port) => port ?? '');
  if ([...open].sort().join() !== [...listens].sort().join()) faults.push('names ports it does not listen at');
  const start = startOf('adapters/discord/main.ts', { ...told, DISCORD_TOKEN_FILE: '/run/secrets/discord-token' });
  if (start.kind === 'refuses') faults.push(start.why);
  const labels = pairsOf(steps, 'LABEL');
  for (const name of ['title', 'licenses', 'version', 'revision'])
    if (!(`org.opencontainers.image.${name}` in labels)) faults.push(`does not say its ${name}`);
  return faults;
}
