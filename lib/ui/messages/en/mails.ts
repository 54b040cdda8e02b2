/** The mails Grainlot sends: plain text. */
export const mailMessages = {
  reset: (name: string, link: string) => ({
    subject: "Set a new password for Grainlot",
    body: `Hello ${name},

somebody, most likely you, asked to set a new password for your Grainlot account. Open this link within one hour; it works once:

${link}

If it wasn't you, leave this mail be: nothing changes.
`,
  }),
  placeFree: (name: string, trial: string, region: string, link: string) => ({
    subject: "You have a seat in a Grainlot trial",
    body: `Hello ${name},

a seat came free in the trial “${trial}”, region ${region}. You waited longest, so your household has it now. Nothing more is needed; plan your first set of boxes when it suits you:

${link}

If you can't take part after all, leave the trial on that page, and the next in line gets the seat.
`,
  }),
  passwordChanged: (name: string, link: string) => ({
    subject: "Your Grainlot password was changed",
    body: `Hello ${name},

the password of your Grainlot account was changed, and every phone and computer was signed out.

If it wasn't you, set a new one at once:

${link}
`,
  }),
  /** Under every letter that a trial's lead wrote. */
  letterFoot: ({ trialTitle, read, stop }: { trialTitle: string | null; read: string; stop: string }) =>
    `--
${trialTitle === null ? "The lead of a trial" : `The lead of the trial “${trialTitle}”`} wrote this to you through Grainlot. Answers to this mail reach nobody. You find the letter again here:
${read}

To get no letters from leads by mail any more (they still stand on that page), open this link; you needn't sign in:
${stop}
`,
} as const;
