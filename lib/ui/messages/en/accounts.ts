/** Words of signing up and in, of passwords and of an account's own page. */
export const accountMessages = {
  fields: {
    name: "Your name",
    nameHint: "What you see when you are signed in. Other growers and the trial's lead don't see it.",
    email: "Email address",
    emailHint: "For signing in and for setting a new password. Nobody else sees it.",
    password: "Password",
    newPassword: "New password",
    currentPassword: "Your password now",
    passwordHint:
      "At least 15 characters. A few words that don't belong together are easy to keep in mind; any character will do.",
    householdCode: "Household code (only if somebody at your home already takes part)",
    householdCodeHint:
      "They find it on their account page. A household counts once, since its boxes share a kitchen and places.",
  },
  faults: {
    "name.missing": "Type a name.",
    "name.tooLong": "Use at most 80 characters.",
    "email.missing": "Type an email address.",
    "email.invalid": "This doesn't look like an email address.",
    "password.missing": "Type a password.",
    "password.tooLong": "Use at most 128 characters.",
    "householdCode.unknown": "No household has this code. Check it, or leave it empty.",
    PASSWORD_TOO_SHORT: "Use at least 15 characters.",
    PASSWORD_TOO_LONG: "Use at most 128 characters.",
    PASSWORD_TOO_COMMON:
      "This one would be guessed early: it is on lists of common passwords, a row of keys, a repeat, or like your name. Take other words.",
    EMAIL_TAKEN: "This address already has an account. Sign in, or set a new password.",
    NO_SUCH_HOUSEHOLD: "No household has this code. Check it, or leave it empty.",
    WRONG_PASSWORD: "This is not your password now.",
  } as Readonly<Record<string, string>>,
  outcomes: {
    TOO_MANY_REQUESTS: "Too many tries. Wait a quarter of an hour and try again.",
    WRONG_SIGN_IN: "Address and password don't belong together. Check both, or set a new password.",
    ACCOUNT_DISABLED: "This account can't sign in any more. Ask whoever runs this server.",
    LINK_NO_LONGER_HOLDS: "This link no longer works: it holds for one hour and once. Ask for a new one.",
    LEADS_ALONE:
      "You are the only lead of a trial that still needs one: it is open, or its final results aren't released. Add another lead or see it through first.",
    LETTERS_SAVED: "Saved.",
    LAST_ADMIN: "You are the only admin. Make somebody else one first.",
    DEMO_SIGN_IN_GONE: "This demo sign-in is not there any more. Load the page again.",
    MAIL_ON_ITS_WAY:
      "If this address has an account, a mail with a link is on its way. It works for one hour, once.",
    NAME_SAVED: "Your name is saved.",
    PASSWORD_SAVED: "Your password is changed, and every other phone and computer is signed out.",
  } as Readonly<Record<string, string>>,
  signUp: {
    title: "Make an account",
    lead: "For adults. It takes a name, an address and a password; which places and boxes are yours stays between you and this server.",
    submit: "Make my account",
    haveOne: "I already have an account",
  },
  signIn: {
    title: "Sign in",
    submit: "Sign in",
    borrowed: "This is not my phone",
    borrowedHint:
      "Signs you out when the browser closes, after two hours at the latest, and keeps nothing you typed and didn't send.",
    forgot: "I forgot my password",
    noneYet: "I have no account yet",
    demo: "Try the demo as",
    demoLead: "Everyone in it is made up. One tap signs you in.",
    demoReader: "a reader without an account",
    demoRoles: {
      grower: "a grower",
      lead: "a trial's lead",
      "grower-done": "a grower who has recorded everything",
      "second-adult": "the other adult of that home",
      "co-lead": "a co-lead",
      admin: "the admin",
    } as Readonly<Record<string, string>>,
  },
  borrowed: {
    title: "This isn't your phone.",
    signOut: "Sign out",
  },
  forgot: {
    title: "Set a new password",
    lead: "Type the address of your account. You get a mail with a link that works for one hour.",
    demoLead: "This is a demo: no mail leaves it. The admin reads it under Admin, Mails.",
    submit: "Send me the link",
    back: "Back to signing in",
  },
  reset: {
    title: "Choose a new password",
    lead: "It signs out every phone and computer your account is signed in on, and signs you in here.",
    submit: "Save the new password",
    again: "Ask for a new link",
  },
  account: {
    title: "Your account",
    email: "Email address",
    nameSubmit: "Save my name",
    household: "Your household",
    householdLead:
      "A second adult of the same home types this code when they make their account. A household has one seat in a trial and counts once.",
    householdCode: "Household code",
    householdAdults: "People in it",
    sessions: "Signed in",
    sessionsLead:
      "Your own phone stays signed in while you use it; half a year without a visit ends it. If one is lost, sign out everywhere: it takes effect at once.",
    signOut: "Sign out here",
    signOutEverywhere: "Sign out everywhere",
    letters: "Letters from leads",
    lettersLead:
      "Whoever runs a trial of yours may write to you. Letters always stand under My things; say whether they come by mail, too.",
    lettersByMail: "Mail them to me, too",
    lettersSubmit: "Save",
    password: "Change your password",
    passwordSubmit: "Change my password",
    data: "Your data",
    dataLead:
      "Everything kept about you in one file: account, places, pins, recipes, sets of boxes, records, jars, letters, words of your own (JSON). Pictures are named in it; each is on its box's page.",
    dataLink: "Download my data",
    leave: "Delete your account",
    leaveGoes:
      "What goes at once: your name, address and password, your places and pins, pictures and words of your own, your recipes' names, helper links, letters you got or sent, and mails. A seat of which no recipes were picked goes to the next in line.",
    leaveLeads:
      "You are the only lead of these trials. They would be left without their final results, so your account can't go before another lead is added there, or they are closed and released:",
    leaveDrafts:
      "Drafts of trials that nobody else leads go, too, and so do reasons you gave for hiding something.",
    leaveStays:
      "What stays, as you were told when you joined: draws, records and jars under a pseudonym that no longer leads to your name, because everyone's results rest on them.",
    leaveSubmit: "Delete my account for good",
    left: "Your account is deleted. Thank you for what you grew.",
  },
} as const;
