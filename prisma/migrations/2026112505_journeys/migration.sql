-- What a season needs beside the main thread: places in more detail, pins, pictures, jars' dates, helpers, waiting
-- lists, pauses, letters, requests for correction, weather by hand, and a trial's release.

-- ── Columns ────────────────────────────────────────────────────────────────────────────────────────────
ALTER TABLE account ADD COLUMN lead_mails_off BOOLEAN NOT NULL DEFAULT false;

ALTER TABLE site ADD COLUMN traits JSONB NOT NULL DEFAULT '{}';
ALTER TABLE site_place
  ADD COLUMN permission TEXT,
  ADD COLUMN permission_on DATE;

ALTER TABLE shelf_entry
  ADD COLUMN follows_variant_id UUID,
  ADD CONSTRAINT shelf_entry_follows_variant_id_fkey
    FOREIGN KEY (follows_variant_id) REFERENCES protocol_variant (id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE trial
  ADD COLUMN follows_id UUID,
  ADD CONSTRAINT trial_follows_id_fkey FOREIGN KEY (follows_id) REFERENCES trial (id) ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE enrolment ADD COLUMN left_at TIMESTAMPTZ(3);

ALTER TABLE outing
  ADD COLUMN inner_height_cm DECIMAL(5,1),
  ADD COLUMN cover_clear BOOLEAN,
  ADD COLUMN sunk_cm DECIMAL(4,1),
  ADD COLUMN spacing_cm INTEGER;

ALTER TABLE box_event
  ADD COLUMN detail JSONB,
  ADD COLUMN via_helper BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE grade ADD COLUMN via_helper BOOLEAN NOT NULL DEFAULT false;

ALTER TABLE free_text
  ADD COLUMN hidden_at TIMESTAMPTZ(3),
  ADD COLUMN hidden_reason TEXT;

ALTER TABLE photo
  ALTER COLUMN box_id DROP NOT NULL,
  ADD COLUMN outing_id UUID,
  ADD COLUMN purpose TEXT NOT NULL DEFAULT 'opened',
  ADD COLUMN taken_at TIMESTAMPTZ(3),
  ADD COLUMN hidden_at TIMESTAMPTZ(3),
  ADD COLUMN hidden_reason TEXT,
  ADD CONSTRAINT photo_outing_id_fkey FOREIGN KEY (outing_id) REFERENCES outing (id) ON DELETE RESTRICT ON UPDATE CASCADE;
CREATE INDEX photo_outing_id_idx ON photo (outing_id);

ALTER TABLE mail
  ADD COLUMN trial_id UUID,
  ADD COLUMN failed_stage TEXT,
  ADD CONSTRAINT mail_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE SET NULL ON UPDATE CASCADE;

ALTER TABLE pool_result ADD COLUMN shown_boxes JSONB;

-- ── Tables ─────────────────────────────────────────────────────────────────────────────────────────────
CREATE TABLE outing_pin (
  outing_id UUID NOT NULL,
  account_id UUID NOT NULL,
  latitude DECIMAL(8,5) NOT NULL,
  longitude DECIMAL(8,5) NOT NULL,
  accuracy_m INTEGER,
  source TEXT NOT NULL,
  taken_at TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT outing_pin_pkey PRIMARY KEY (outing_id),
  CONSTRAINT outing_pin_outing_id_fkey FOREIGN KEY (outing_id) REFERENCES outing (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT outing_pin_account_id_fkey FOREIGN KEY (account_id) REFERENCES account (id) ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX outing_pin_account_id_idx ON outing_pin (account_id);

CREATE TABLE exposure_day (
  outing_id UUID NOT NULL,
  day DATE NOT NULL,
  min_c DECIMAL(4,1),
  max_c DECIMAL(4,1),
  rain_mm DECIMAL(5,1),
  CONSTRAINT exposure_day_pkey PRIMARY KEY (outing_id, day),
  CONSTRAINT exposure_day_outing_id_fkey FOREIGN KEY (outing_id) REFERENCES outing (id) ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TABLE helper_link (
  id UUID NOT NULL,
  account_id UUID NOT NULL,
  outing_id UUID NOT NULL,
  token_hash TEXT NOT NULL,
  created_at TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  expires_at TIMESTAMPTZ(3) NOT NULL,
  revoked_at TIMESTAMPTZ(3),
  CONSTRAINT helper_link_pkey PRIMARY KEY (id),
  CONSTRAINT helper_link_account_id_fkey FOREIGN KEY (account_id) REFERENCES account (id) ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT helper_link_outing_id_fkey FOREIGN KEY (outing_id) REFERENCES outing (id) ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX helper_link_token_hash_key ON helper_link (token_hash);
CREATE INDEX helper_link_account_id_idx ON helper_link (account_id);
CREATE INDEX helper_link_outing_id_idx ON helper_link (outing_id);

CREATE TABLE waiting_place (
  id UUID NOT NULL,
  trial_id UUID NOT NULL,
  household_id UUID NOT NULL,
  grower_id UUID NOT NULL,
  region_id UUID NOT NULL,
  agreement_version TEXT NOT NULL,
  asked_at TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  CONSTRAINT waiting_place_pkey PRIMARY KEY (id),
  CONSTRAINT waiting_place_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT waiting_place_household_id_fkey FOREIGN KEY (household_id) REFERENCES household (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT waiting_place_grower_id_fkey FOREIGN KEY (grower_id) REFERENCES grower (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT waiting_place_region_id_fkey FOREIGN KEY (region_id) REFERENCES region (id) ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX waiting_place_trial_id_household_id_key ON waiting_place (trial_id, household_id);
CREATE INDEX waiting_place_trial_id_region_id_asked_at_idx ON waiting_place (trial_id, region_id, asked_at);

CREATE TABLE trial_pause (
  id UUID NOT NULL,
  trial_id UUID NOT NULL,
  grower_id UUID NOT NULL,
  reason TEXT NOT NULL,
  paused_at TIMESTAMPTZ(3) NOT NULL,
  resumed_at TIMESTAMPTZ(3),
  CONSTRAINT trial_pause_pkey PRIMARY KEY (id),
  CONSTRAINT trial_pause_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT trial_pause_grower_id_fkey FOREIGN KEY (grower_id) REFERENCES grower (id) ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX trial_pause_trial_id_idx ON trial_pause (trial_id);
-- A trial is paused once at a time.
CREATE UNIQUE INDEX trial_pause_standing ON trial_pause (trial_id) WHERE resumed_at IS NULL;

CREATE TABLE lead_message (
  id UUID NOT NULL,
  trial_id UUID NOT NULL,
  account_id UUID NOT NULL,
  audience TEXT NOT NULL,
  subject TEXT NOT NULL,
  body TEXT NOT NULL,
  recipients INTEGER NOT NULL,
  sent_at TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  CONSTRAINT lead_message_pkey PRIMARY KEY (id),
  CONSTRAINT lead_message_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT lead_message_account_id_fkey FOREIGN KEY (account_id) REFERENCES account (id) ON DELETE CASCADE ON UPDATE CASCADE
);
CREATE INDEX lead_message_trial_id_sent_at_idx ON lead_message (trial_id, sent_at);
CREATE INDEX lead_message_account_id_idx ON lead_message (account_id);

CREATE TABLE correction_request (
  id UUID NOT NULL,
  trial_id UUID NOT NULL,
  box_id UUID NOT NULL,
  asked_by_id UUID NOT NULL,
  kind TEXT NOT NULL,
  asked_at TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  answered_at TIMESTAMPTZ(3),
  answer TEXT,
  CONSTRAINT correction_request_pkey PRIMARY KEY (id),
  CONSTRAINT correction_request_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT correction_request_box_id_fkey FOREIGN KEY (box_id) REFERENCES box (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT correction_request_asked_by_id_fkey FOREIGN KEY (asked_by_id) REFERENCES grower (id) ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX correction_request_trial_id_answered_at_idx ON correction_request (trial_id, answered_at);
CREATE INDEX correction_request_box_id_idx ON correction_request (box_id);

CREATE TABLE trial_release (
  id UUID NOT NULL,
  trial_id UUID NOT NULL,
  released_at TIMESTAMPTZ(3) NOT NULL,
  grower_id UUID NOT NULL,
  engine TEXT NOT NULL,
  rows TEXT NOT NULL,
  rows_sha256 TEXT NOT NULL,
  analysis JSONB NOT NULL,
  methods JSONB NOT NULL,
  hash TEXT NOT NULL,
  CONSTRAINT trial_release_pkey PRIMARY KEY (id),
  CONSTRAINT trial_release_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT trial_release_grower_id_fkey FOREIGN KEY (grower_id) REFERENCES grower (id) ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX trial_release_trial_id_key ON trial_release (trial_id);
CREATE UNIQUE INDEX trial_release_hash_key ON trial_release (hash);

-- ── Values ─────────────────────────────────────────────────────────────────────────────────────────────
ALTER TABLE site_place ADD CONSTRAINT site_place_permission CHECK ((permission IS NULL) = (permission_on IS NULL));

ALTER TABLE outing
  ADD CONSTRAINT outing_height CHECK (inner_height_cm > 0),
  ADD CONSTRAINT outing_sunk CHECK (sunk_cm >= 0),
  ADD CONSTRAINT outing_spacing CHECK (spacing_cm >= 0);

ALTER TABLE outing_pin
  ADD CONSTRAINT outing_pin_latitude CHECK (latitude BETWEEN -90 AND 90),
  ADD CONSTRAINT outing_pin_longitude CHECK (longitude BETWEEN -180 AND 180),
  ADD CONSTRAINT outing_pin_accuracy CHECK (accuracy_m >= 0),
  ADD CONSTRAINT outing_pin_source CHECK (source IN ('phone', 'typed'));

ALTER TABLE exposure_day
  ADD CONSTRAINT exposure_day_temperatures CHECK (min_c BETWEEN -60 AND 60 AND max_c BETWEEN -60 AND 60 AND min_c <= max_c),
  ADD CONSTRAINT exposure_day_rain CHECK (rain_mm BETWEEN 0 AND 2000);

ALTER TABLE photo
  ADD CONSTRAINT photo_purpose CHECK (purpose IN ('set-out', 'opened')),
  ADD CONSTRAINT photo_of_one CHECK ((box_id IS NULL) <> (outing_id IS NULL)),
  ADD CONSTRAINT photo_hidden CHECK ((hidden_at IS NULL) = (hidden_reason IS NULL));
ALTER TABLE free_text ADD CONSTRAINT free_text_hidden CHECK ((hidden_at IS NULL) = (hidden_reason IS NULL));

ALTER TABLE trial_pause ADD CONSTRAINT trial_pause_order CHECK (resumed_at >= paused_at);

ALTER TABLE lead_message
  ADD CONSTRAINT lead_message_subject CHECK (length(subject) BETWEEN 1 AND 120),
  ADD CONSTRAINT lead_message_body CHECK (length(body) BETWEEN 1 AND 4000),
  ADD CONSTRAINT lead_message_recipients CHECK (recipients >= 0);

ALTER TABLE correction_request
  ADD CONSTRAINT correction_request_answered CHECK ((answered_at IS NULL) = (answer IS NULL));

ALTER TABLE trial_release
  ADD CONSTRAINT trial_release_hashes CHECK (hash ~ '^[0-9a-f]{64}$' AND rows_sha256 ~ '^[0-9a-f]{64}$');

-- ── A release stands, and only a closed trial has one ──────────────────────────────────────────────────
CREATE TRIGGER append_only BEFORE UPDATE OR DELETE ON trial_release FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON trial_release FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE FUNCTION keep_releases_to_closed_trials() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT status FROM trial WHERE id = NEW.trial_id) IS DISTINCT FROM 'closed' THEN
    RAISE EXCEPTION 'only a closed trial can be released' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER closed_only BEFORE INSERT ON trial_release
  FOR EACH ROW EXECUTE FUNCTION keep_releases_to_closed_trials();

-- ── The application's role ─────────────────────────────────────────────────────────────────────────────
GRANT SELECT, INSERT, UPDATE, DELETE ON
  outing_pin, exposure_day, helper_link, waiting_place, lead_message TO grainlot_app;
GRANT SELECT, INSERT, UPDATE ON trial_pause, correction_request TO grainlot_app;
GRANT SELECT, INSERT ON trial_release TO grainlot_app;
