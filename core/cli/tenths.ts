/** Says a label once and then every tenth of the way. */
export function tenthsOf(say: (line: string) => void): (label: string, done: number, total: number | null) => void {
  let last = '';
  return (label, done, total) => {
    const line = total === null || total === 0 ? label : `${label}: ${Math.floor((done / total) * 10) * 10} %`;
    if (line !== last) say(line);
    last = line;
  };
}
