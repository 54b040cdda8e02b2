export interface NamedFault {
  /** Of the input at fault. */
  readonly inputId: string;
  readonly label: string;
  readonly words: string;
}

/** What is wrong with a form, field by field, each a way to its field. */
export function FaultSummary({ title, faults }: { title?: string; faults: readonly NamedFault[] }) {
  if (faults.length === 0) return null;
  return (
    <div className="mb-5 max-w-[44em] border-l-[6px] border-due py-0.5 pl-3">
      {title ? <p className="font-bold text-due">{title}</p> : null}
      <ul>
        {faults.map(({ inputId, label, words }) => (
          <li key={inputId}>
            <a href={`#${inputId}`} className="inline-flex min-h-[44px] items-center">
              {label}
            </a>
            : {words}
          </li>
        ))}
      </ul>
    </div>
  );
}
