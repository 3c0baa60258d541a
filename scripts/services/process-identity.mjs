import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

/**
 * What tells a process from a later one that was given the same pid: when it started. Null when nothing of that pid
 * runs any more; a zombie counts as gone.
 *
 * @param {number} pid
 * @returns {string | null}
 */
export function processIdentity(pid) {
  return process.platform === 'linux' ? fromProc(pid) : fromPs(pid);
}

/**
 * @param {number} pid
 * @returns {string} the command line, empty when the process is gone or hidden from us
 */
export function commandLine(pid) {
  try {
    return process.platform === 'linux'
      ? readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ').trim()
      : ps(pid, 'command=');
  } catch {
    return '';
  }
}

/** @param {number} pid */
function fromProc(pid) {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The second field is the program's name in brackets and may itself hold blanks and brackets (proc(5)).
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    const [state, startedAt] = [fields[0], fields[19]];
    if (startedAt === undefined || state === 'Z' || state === 'X') return null;
    // Start times count from boot, so the boot belongs to them.
    return `${readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()}/${pid}/${startedAt}`;
  } catch {
    return null;
  }
}

/** @param {number} pid */
function fromPs(pid) {
  try {
    return ps(pid, 'stat=').startsWith('Z') ? null : `${pid}/${ps(pid, 'lstart=')}`;
  } catch {
    return null;
  }
}

/**
 * @param {number} pid
 * @param {string} column
 */
function ps(pid, column) {
  return execFileSync('ps', ['-o', column, '-p', String(pid)], { encoding: 'utf8' }).trim();
}
