/** One thing wrong with the table, where, and what to do about it. */
export interface Fault {
  /** Faults of one kind are counted together once there are too many to name. */
  readonly kind: string;
  /** 1 for the header; null where the whole file is meant. */
  readonly line: number | null;
  /** Place (from 1) and name in the header. */
  readonly column?: { readonly place: number; readonly name: string } | undefined;
  /** What is wrong, then what to do: whole sentences. */
  readonly message: string;
}

/** The first faults by name, the rest by number. */
export interface Faults {
  readonly named: readonly Fault[];
  readonly furtherByKind: ReadonlyMap<string, number>;
}

const NAMED_AT_MOST = 1000;
const SHOWN_OF_A_VALUE = 40;

/** Gathers faults while a table is read. */
export class FaultList implements Faults {
  readonly named: Fault[] = [];
  readonly furtherByKind = new Map<string, number>();

  /** A message given as a function is made for a fault that is named only: a table may have millions. */
  add({ message, ...fault }: Omit<Fault, "message"> & { readonly message: string | (() => string) }): void {
    if (this.named.length < NAMED_AT_MOST) {
      this.named.push({ ...fault, message: typeof message === "string" ? message : message() });
    } else this.furtherByKind.set(fault.kind, (this.furtherByKind.get(fault.kind) ?? 0) + 1);
  }

  get isEmpty(): boolean {
    return this.named.length === 0;
  }
}

/** A value as it can be shown in a message: quoted, control characters escaped, long ones cut. */
export function shown(value: string): string {
  return JSON.stringify(value.length > SHOWN_OF_A_VALUE ? `${value.slice(0, SHOWN_OF_A_VALUE)}…` : value);
}

/**
 * One line a fault, `FILE:LINE: column N "NAME": what is wrong. What to do.`, then counts of those left out and
 * what was not done because of them.
 */
export function describeFaults(file: string, { named, furtherByKind }: Faults, ending: string): string {
  const lines = named.map(({ line, column, message }) => {
    const place = line === null ? file : `${file}:${line}`;
    return column
      ? `${place}: column ${column.place} ${shown(column.name)}: ${message}`
      : `${place}: ${message}`;
  });
  for (const [kind, number] of furtherByKind) {
    lines.push(`${file}: and ${number} more: ${kind}.`);
  }
  lines.push(ending);
  return lines.map((line) => `${line}\n`).join("");
}
