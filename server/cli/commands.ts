import type { Command } from './command.ts';

/** Commands in the order in which help lists them. Each is a file of its name in `commands/`. */
export const COMMANDS = ['read', 'sight', 'check', 'combine', 'judge', 'version', 'help'] as const;
/** The name of a command. */
export type CommandName = (typeof COMMANDS)[number];

/** A command is loaded when it is asked for, so that none waits for what another needs. */
const LOAD: Readonly<Record<CommandName, () => Promise<{ readonly command: Command }>>> = {
  read: () => import('./commands/read.ts'),
  sight: () => import('./commands/sight.ts'),
  check: () => import('./commands/check.ts'),
  combine: () => import('./commands/combine.ts'),
  judge: () => import('./commands/judge.ts'),
  version: () => import('./commands/version.ts'),
  help: () => import('./commands/help.ts'),
};

/** The command `name`. */
export const loadCommand = async (name: CommandName): Promise<Command> => (await LOAD[name]()).command;
