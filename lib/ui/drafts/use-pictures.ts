"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import { v7 } from "uuid";
import type { PhotoView } from "@/lib/services/growing/photos";
import { pictureMessages } from "@/lib/ui/messages/en/pictures";
import { localNow, withOffset } from "@/lib/ui/moments";
import { type SentProblem, sendPicture, sendWrite } from "@/lib/ui/send";
import { type PhotoPurpose, subjectOfPhoto } from "@/shared/vocabulary/photo";
import { dropPicture, keepPicture, type WaitingPicture, waitingPictures } from "./picture-store";
import { shrinkPicture } from "./shrink-picture";

export interface ShownPicture {
  readonly id: string;
  readonly url: string;
  /** `waiting`: on this phone, to be sent once there is signal. */
  readonly state: "sent" | "sending" | "waiting" | "refused";
  readonly problem: SentProblem | null;
  readonly hiddenReason: string | null;
}

const sentPicture = ({ id, hiddenReason }: PhotoView): ShownPicture => ({
  id,
  url: `/photos/${id}`,
  state: "sent",
  problem: null,
  hiddenReason,
});

/**
 * The pictures of one box or set: those sent, and those that wait on this phone. A picture goes as soon as it is
 * taken; without signal it stays, over reloads and closed tabs too, and goes when the page is open and signal is back.
 */
export function usePictures(purpose: PhotoPurpose, of: string, sent: readonly PhotoView[]) {
  const [pictures, setPictures] = useState(() => sent.map(sentPicture));
  const waiting = useRef(new Map<string, WaitingPicture>());

  const put = useCallback((id: string, part: Partial<ShownPicture>) => {
    setPictures((all) => all.map((each) => (each.id === id ? { ...each, ...part } : each)));
  }, []);

  const send = useCallback(
    async ({ file, ...about }: WaitingPicture) => {
      put(about.id, { state: "sending", problem: null });
      const answer = await sendPicture<PhotoView>(about, file, pictureMessages.noSignal);
      if (answer.ok) {
        waiting.current.delete(about.id);
        await dropPicture(about.id);
        put(about.id, { state: "sent" });
      } else {
        const state = answer.problem.reason === "NO_SIGNAL" ? "waiting" : "refused";
        put(about.id, { state, problem: answer.problem });
      }
    },
    [put],
  );

  const show = useCallback((picture: WaitingPicture) => {
    if (waiting.current.has(picture.id)) return;
    waiting.current.set(picture.id, picture);
    const url = URL.createObjectURL(picture.file);
    const shown: ShownPicture = {
      id: picture.id,
      url,
      state: "waiting",
      problem: null,
      hiddenReason: null,
    };
    setPictures((all) => [...all, shown]);
  }, []);

  useEffect(() => {
    async function takeUp() {
      for (const picture of await waitingPictures(of)) show(picture);
      if (navigator.onLine) for (const picture of waiting.current.values()) void send(picture);
    }
    void takeUp();
    window.addEventListener("online", takeUp);
    return () => window.removeEventListener("online", takeUp);
  }, [of, send, show]);

  async function add(files: Iterable<File>): Promise<void> {
    for (const taken of files) {
      const file = await shrinkPicture(taken);
      const picture = { id: v7(), purpose, of, takenAt: withOffset(localNow()), file };
      show(picture);
      await keepPicture(picture);
      void send(picture);
    }
  }

  /** What is wrong, or null once it is gone. */
  async function remove({ id, state }: ShownPicture): Promise<SentProblem | null> {
    if (state === "sent") {
      const body = { id: v7(), photoId: id, ...subjectOfPhoto(purpose, of) };
      const answer = await sendWrite("/api/v1/photos/removals", body, pictureMessages.noSignal);
      if (!answer.ok) return answer.problem;
    }
    waiting.current.delete(id);
    await dropPicture(id);
    setPictures((all) => all.filter((each) => each.id !== id));
    return null;
  }

  return { pictures, add, remove };
}
