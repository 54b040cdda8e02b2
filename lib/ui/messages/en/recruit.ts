/** Words of the page on which a lead invites growers, and of the poster. */
export const recruitMessages = {
  title: "Invite growers",
  lead: "Whoever has the link or the code reads first what the trial asks and what is shared, and then takes a seat in a region.",
  address: "Link",
  code: "Code",
  poster: {
    link: "Poster to print (PDF, A4)",
    note: "Question, regions, what it asks, cautions, and the link as a QR code. Signs that the typeface doesn’t have, such as emoji, are left out.",
    invented: "Invented trial: made up for trying out Grainlot.",
    kicker: "A trial with cooked grain · growers wanted",
    where: (regions: readonly string[], until: string) =>
      `Where: ${new Intl.ListFormat("en-GB").format(regions)}. Until ${until}.`,
    asksTitle: "What it asks",
    asks: (boxes: string) => [
      `Cook grain as chance picks it, for a set of ${boxes} boxes or for several sets.`,
      "Set the boxes out in a wood or meadow where you may, and wait for what grows.",
      "Some days later, record each box by pictures, about five minutes a box.",
    ],
    caution:
      "Mould spores: with mask and gloves, outdoors, away from the face; not with asthma or a weakened immune system; keep children and pets away; nothing that grew is for eating. Local rules and qualified advice come first.",
    join: "Read more and take part",
    code: (code: string) => `or type the code ${code} under “Join with a code”`,
    foot: "Everybody’s boxes together show which grain, cooked how wet, works in which climate. Your name and place stay with you.",
  },
  regionsTitle: "Seats",
  regionsLead:
    "You may add seats while the trial runs, or take empty ones away. Households in line get new seats at once, whoever waited longest first, and a mail tells them.",
  regionState: (taken: number, waiting: number) =>
    `${taken === 1 ? "1 seat taken" : `${taken} seats taken`}, ${waiting === 0 ? "nobody waits" : waiting === 1 ? "1 household waits" : `${waiting} households wait`}`,
  capacity: (region: string) => `Seats in ${region}`,
  submit: "Change",
  closed: "The trial has closed and takes nobody new.",
  back: "To the trial",
  outcomes: {
    CHANGED: "Changed.",
    NOT_FOUND: "There is nothing here for you.",
    TRIAL_NOT_OPEN: "The trial has closed and takes nobody new.",
    TRIAL_ENDED: "The trial has come to its end and takes nobody new.",
    BELOW_SEATS_TAKEN: "More seats are taken than that. A seat that is taken can’t be taken away.",
    INVALID: "Nothing was changed.",
    "seats.range": "A whole number from 1 to 1000.",
  } as Readonly<Record<string, string>>,
} as const;
