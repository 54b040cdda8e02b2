import Link from "next/link";
import type { OutingListItem } from "@/lib/services/growing/outing-list";
import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { ButtonLink } from "@/lib/ui/components/button";
import { weekdayWords } from "@/lib/ui/format";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { isToCome } from "./is-to-come";

const words = setMessages.outings;

/** One set: where, its boxes as pictures, what is due, and one tap to each box that can be recorded. */
export function SetCard({ item }: { item: OutingListItem }) {
  const { due } = item;
  const isDue = isDueNow(due);
  const toRecord =
    due.kind === "record" ? item.boxes.filter(({ position }) => due.positions.includes(position)) : [];
  return (
    <section className="mb-5 max-w-[44em] overflow-hidden rounded-[5px] border-2 border-ink">
      <div className="p-3.5">
        <h2>
          <Link href={`/outings/${item.id}`}>{item.siteName ?? words.placeGone}</Link>
        </h2>
        <p className="text-quiet">
          {item.trialTitle} · {words.setFor(weekdayWords(item.day))}
        </p>
      </div>
      <ul className="grid grid-cols-[repeat(auto-fill,minmax(4.5rem,1fr))] gap-2 px-3.5 pb-3">
        {item.boxes.map((box) => (
          <li key={box.position} className="text-center">
            <BoxGlyph state={box.state === "recorded" ? "unrecorded" : box.state} label={stateWords(box)} />
            <span className="font-mono text-[0.875rem]" aria-hidden="true">
              {box.code}
            </span>
          </li>
        ))}
      </ul>
      <p className={`px-3.5 py-2 font-semibold ${isDue ? "bg-due-ground text-due" : "bg-panel text-quiet"}`}>
        {dueWords(item)}
      </p>
      {toRecord.length > 0 ? (
        <p className="flex flex-wrap gap-2.5 p-3.5">
          {toRecord.map((box) => (
            <ButtonLink
              key={box.position}
              kind="quiet"
              href={`/outings/${item.id}/boxes/${box.position}/grade`}
            >
              {words.recordBox(box.code)}
            </ButtonLink>
          ))}
        </p>
      ) : null}
    </section>
  );
}

/** Whether somebody can do now what a set waits for. */
export function isDueNow(due: OutingListItem["due"]): boolean {
  if (due.kind === "fetch") return !isToCome(due.earliest);
  if (due.kind === "fetch-on") return !isToCome(due.day);
  return due.kind !== "done" && due.kind !== "given-up";
}

function stateWords({ code, state }: OutingListItem["boxes"][number]): string {
  if (state === "unrecorded" || state === "recorded") return words.boxStates[state](code);
  return words.boxStates.growth(code, vocabularyMessages.growth[state].name);
}

function dueWords({ due, boxes }: OutingListItem): string {
  switch (due.kind) {
    case "draw":
      return words.due.draw;
    case "cook":
      return words.due.cook;
    case "set-out":
      return words.due.setOut;
    case "fetch":
      return due.earliest && due.likely
        ? words.due.fetchBetween(weekdayWords(due.earliest), weekdayWords(due.likely))
        : words.due.fetchUnknown;
    case "fetch-on":
      return words.due.fetchOn(weekdayWords(due.day));
    case "record":
      return words.due.record(
        boxes
          .filter(({ position }) => due.positions.includes(position))
          .map(({ code }) => code)
          .join(", "),
      );
    case "done":
      return words.due.done;
    case "given-up":
      return words.due.givenUp;
  }
}
