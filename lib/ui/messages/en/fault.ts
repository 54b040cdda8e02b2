/** Words for when something broke; apart, as every page carries them. */
export const faultMessages = {
  title: "Something broke on our side",
  lead: "What you had saved is safe. Try again; if it keeps happening, tell whoever runs this server.",
  again: "Try again",
  reference: (digest: string) => `For whoever looks into it: ${digest}`,
} as const;
