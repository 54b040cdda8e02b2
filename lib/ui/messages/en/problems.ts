import { formMessages } from "./forms";

/** What is wrong and what to do, by the reason a service or route refuses with. */
export const problemMessages = {
  SIGN_IN_FIRST: {
    title: "You are not signed in.",
    detail: "Sign in and try again; what you typed is kept.",
  },
  HELPER_LINK_ENDED: {
    title: "This helper link opens nothing any more.",
    detail: "Ask whoever gave it to you for a new one and open it on this phone; what you typed is kept.",
  },
  NOT_SAME_ORIGIN: {
    title: "This request did not come from this site.",
    detail: "Open the page here and send it again.",
  },
  NOT_FOUND: {
    title: "There is nothing here for you.",
    detail: "Check the address, or go back to your boxes.",
  },
  SEND_JSON: { title: "This address takes JSON.", detail: "Send it with content-type application/json." },
  NOT_JSON: { title: "What arrived is not JSON.", detail: "Send it again." },
  TOO_LARGE: { title: "That is too much at once.", detail: "Send at most 1 MB." },
  PICTURE_TOO_LARGE: {
    title: "This picture is too large.",
    detail: "Send one of at most 10 MB, as a phone's camera makes them.",
  },
  NOT_A_PICTURE: { title: "This can't be read as a picture.", detail: "Send a JPEG, PNG or WebP picture." },
  PICTURE_IS_HEIC: {
    title: "This is a HEIC picture, which most browsers can't show.",
    detail:
      "Send it as JPEG: on an iPhone choose “Most Compatible” under Settings, Camera, Formats, and take it again.",
  },
  TOO_MANY_PICTURES: {
    title: "There are enough pictures here.",
    detail: "Remove one to send another: 8 of a box, 4 of a set as it was set out.",
  },
  BOX_NOT_RECORDED: {
    title: "One of these boxes has no record yet.",
    detail: "Record what grew first; then it can go into a jar.",
  },
  MORE_THAN_BOX_HELD: {
    title: "That is more grain than the box held.",
    detail: "Check the grams, also those in other jars, or correct the box's weights.",
  },
  JAR_BEFORE_OPENING: {
    title: "The jar was made before one of its boxes was opened.",
    detail: "Check the day and the hour.",
  },
  INVALID: formMessages.invalid,
  ID_USED_FOR_OTHER_CONTENT: {
    title: "This was already sent with other content.",
    detail: "What was saved first stands. Record a correction instead.",
  },
  CHANGED_MEANWHILE: {
    title: "This changed meanwhile.",
    detail: "Load the page again, look at what changed, then make your change.",
  },
  WEATHER_TOO_LATE: {
    title: "This trial has closed.",
    detail: "What its results rest on stays as it is; weather typed now isn't kept.",
  },
  WEATHER_OF_OTHER_DAYS: {
    title: "These aren't the days this set stood out.",
    detail: "The day it was set out may have been corrected meanwhile. Load the page again.",
  },
  RECORDED_BY_GROWER: {
    title: "Whoever set this box out has recorded it.",
    detail: "A helper can't change that record. Tell them what you saw.",
  },
  SAY_WHICH_VERSION: {
    title: "An edit must say what it is based on.",
    detail: "Send the header If-Match with the version you saw.",
  },
  TRIAL_NOT_OPEN: {
    title: "This trial takes nobody and nothing new.",
    detail: "It has closed. What you have set out already can still be recorded.",
  },
  LEDGER_SEALED: {
    title: "This trial's ledger is still closed.",
    detail: "It tells the recipe of every box. It is published, with the secret, when the trial closes.",
  },
  RESULTS_HIDDEN: {
    title: "This trial's results are still hidden.",
    detail: "They come out when the trial closes.",
  },
  RESULTS_ON_THEIR_WAY: {
    title: "This trial's results are being worked out.",
    detail: "Look again in a few minutes.",
  },
  TRIAL_ENDED: {
    title: "This trial has come to its end.",
    detail: "It picks no more recipes and takes nobody new. What you have set out can still be recorded.",
  },
  TRIAL_PAUSED: {
    title: "This trial stands still for now.",
    detail:
      "Its lead has paused it; the trial's page says why. No recipes are picked until it goes on. What you have set out can still be recorded.",
  },
  REGION_FULL: {
    title: "This region has no seat left.",
    detail: "Wait for one, choose another region if yours has two, or look for another trial.",
  },
  ALREADY_WAITING: {
    title: "Your household waits for a seat already.",
    detail:
      "Load the page to see your place in line. To wait in another region, step back from this one first.",
  },
  ALREADY_JOINED: { title: "You take part already.", detail: "Plan a set of boxes under My things." },
  JOIN_FIRST: { title: "You don't take part in this trial.", detail: "Join it with its code first." },
  NO_CLIMATE_HERE: {
    title: "We know no climate for this spot.",
    detail:
      "Check the coordinates; they may lie in the sea. If they are right, type in your own monthly numbers.",
  },
  PLACE_HAS_SETS: {
    title: "A set of boxes stands at this place.",
    detail: "It stays where it is. If it lies elsewhere, add another place.",
  },
  SITE_OUTSIDE_REGION: {
    title: "This place lies outside the region you joined for.",
    detail: "Choose a place within the region.",
  },
  CLASS_NOT_IN_TRIAL: {
    title: "This trial has no climate group for this place.",
    detail: "Choose another place.",
  },
  PERMISSION_NEEDED: {
    title: "Nobody has said yet that boxes may stand there this season.",
    detail: "Ask whoever owns the land first, then say so here.",
  },
  BOX_COUNT_OUTSIDE_TRIAL: {
    title: "This trial takes another number of boxes in a set.",
    detail: "The page says how few and how many.",
  },
  BOX_KIND_OUTSIDE_TRIAL: {
    title: "This trial takes other boxes.",
    detail: "Choose one of the kinds it names.",
  },
  DEPTH_OUTSIDE_TRIAL: {
    title: "This trial wants the grain deeper or less deep.",
    detail: "The form says from where to where.",
  },
  SPACING_BELOW_LIMIT: {
    title: "This trial wants the boxes further apart.",
    detail:
      "Move them and type the new distance. If that can't be, leave it empty and say it in your own words.",
  },
  DAY_IN_PAST: { title: "That day is over.", detail: "Choose today or a later day." },
  DAY_AFTER_TRIAL: { title: "That day is after the trial's end.", detail: "Choose an earlier day." },
  NO_ARM_POSSIBLE: {
    title: "None of this trial's recipes can be cooked from these grains.",
    detail: "Tick the grains you can get; at least two recipes must be possible.",
  },
  ONE_ARM_ONLY: {
    title: "Only one of this trial's recipes can be cooked from these grains.",
    detail: "A set compares recipes: get a grain of another one.",
  },
  BAD_BOX_COUNT: { title: "A set has 2 to 12 boxes.", detail: "Plan another set." },
  NO_CODE_LEFT: {
    title: "No label code was free.",
    detail: "Try again in a moment.",
  },
  ALREADY_DRAWN: {
    title: "The recipes of this set are picked already.",
    detail: "A draw is made once. Load the page to see it.",
  },
  OUTING_ABANDONED: { title: "This set was given up.", detail: "Plan a new one." },
  RECORDS_BEGUN: {
    title: "A box of this set is recorded already.",
    detail:
      "So the set can’t be given up. Say of each other box what happened and that its growth can’t be recorded; it then counts as lost.",
  },
  ALREADY_ABANDONED: { title: "This set was given up before.", detail: "Nothing more is needed." },
  TOO_MANY_NOT_SET_OUT: {
    title: "Four of your household's sets are picked and not set out yet.",
    detail: "Set one of them out first, or give up one that you won't set out. Then chance picks the next.",
  },
  ALREADY_SET_OUT: {
    title: "A box of this set is out already.",
    detail: "From then on it stays as it is. Say of single boxes what happened to them.",
  },
  NO_DAY_TO_COME: {
    title: "There is no day to come for this set.",
    detail: "Nothing is left to set out or to fetch, or nobody can say when.",
  },
  NOT_SET_OUT_YET: {
    title: "This set isn't out yet.",
    detail: "Say first that the boxes are set out. The spot is taken there and nowhere else.",
  },
  TOO_FEW_BOXES_LEFT: {
    title: "With one box less there is nothing to compare.",
    detail: "A set needs two boxes. If you can't get another one, give this set up.",
  },
  STAGE_ON_RECORD: {
    title: "That is on record already.",
    detail: "Load the page. If its time is wrong, take that entry back and tell it anew.",
  },
  FETCHED_BEFORE_SET_OUT: {
    title: "A box can't be fetched before it was set out.",
    detail: "Check both times. Take back the wrong one and tell it anew.",
  },
  OPENED_BEFORE_SET_OUT: {
    title: "A box can't be opened before it was set out.",
    detail: "Check both times. A look at it where it stands is “looked in and put back”.",
  },
  OPENED_BEFORE_FETCHED: {
    title: "A box can't be opened before it was fetched.",
    detail: "Check both times. If you opened it where it stood, take back that it was fetched.",
  },
  NOT_DRAWN_YET: {
    title: "The recipes of this set are not picked yet.",
    detail: "Let chance pick them first.",
  },
  MOMENT_IN_FUTURE: { title: "That time is still to come.", detail: "Check the day and the hour." },
  MOMENT_BEFORE_OUTING: {
    title: "That time is long before the day this set was planned for.",
    detail: "Check the day; at most two days before are possible.",
  },
  ALREADY_WITHDRAWN: { title: "That was taken back before.", detail: "Nothing more is needed." },
  TOO_MANY_REQUESTS: { title: "Too many tries.", detail: "Wait a few minutes and try again." },
  FAULT: { title: "Something broke on our side.", detail: "Nothing was saved. Try again in a minute." },
  REFUSED: { title: "That isn't possible now.", detail: "Load the page again to see where things stand." },
} as const;
