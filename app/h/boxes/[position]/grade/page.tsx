import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { loadBox } from "@/app/outings/[id]/boxes/[position]/grade/_components/load-box";
import { RecordStep } from "@/app/outings/[id]/boxes/[position]/grade/_components/record-step";
import { currentHelper } from "@/lib/auth/helper";
import { recordingMessages } from "@/lib/ui/messages/en/recording";

interface Props {
  params: Promise<{ position: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: recordingMessages.record.title((await params).position), robots: { index: false } };
}

/** The record step for a helper: no recipe, and nothing of what its grower recorded or photographed. */
export default async function HelperGradePage({ params }: Props) {
  const { position } = await params;
  const helper = await currentHelper();
  if (!helper) notFound();
  return <RecordStep box={await loadBox(helper, helper.onlyOutingId, position)} setPath="/h" />;
}
