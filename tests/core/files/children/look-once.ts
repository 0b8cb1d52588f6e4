import { execFileSync } from 'node:child_process';
import { findFile } from '../../../../core/files/find-file.ts';

/** Looks at one file, and says the number of the process that did it. */
const [path = ''] = process.argv.slice(2);
if ((await findFile(path)) === null) throw new Error('the file is not found');
process.stdout.write(execFileSync('pgrep', ['-P', String(process.pid), '-f', 'probe-process'], { encoding: 'utf8' }));
