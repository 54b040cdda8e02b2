-- What the database itself holds to, whoever writes to it: values, states, append-only rows, and a role for
-- the application that owns nothing.

-- ── Values ─────────────────────────────────────────────────────────────────────────────────────────────
ALTER TABLE account
  ADD CONSTRAINT account_email_lower CHECK (email = lower(email) AND length(email) BETWEEN 3 AND 254),
  ADD CONSTRAINT account_name_length CHECK (length(name) BETWEEN 1 AND 80),
  ADD CONSTRAINT account_session_version CHECK (session_version >= 1);

ALTER TABLE account_token
  ADD CONSTRAINT account_token_kind CHECK (kind IN ('reset'));

ALTER TABLE site_place
  ADD CONSTRAINT site_place_latitude CHECK (cell_latitude BETWEEN -90 AND 90),
  ADD CONSTRAINT site_place_longitude CHECK (cell_longitude BETWEEN -180 AND 180),
  ADD CONSTRAINT site_place_elevation CHECK (elevation_m BETWEEN -430 AND 6000),
  ADD CONSTRAINT site_place_name CHECK (length(name) BETWEEN 1 AND 80);

ALTER TABLE site
  ADD CONSTRAINT site_koppen CHECK (koppen_class ~ '^(A[fmws]|B[WS][hk]|[CD][swf][abcd]|E[TF])$');

ALTER TABLE region
  ADD CONSTRAINT region_extent CHECK (south < north AND west < east);

ALTER TABLE trial
  ADD CONSTRAINT trial_status CHECK (status IN ('draft', 'open', 'closed')),
  ADD CONSTRAINT trial_slug CHECK (slug ~ '^[a-z0-9]+(-[a-z0-9]+)*$'),
  ADD CONSTRAINT trial_boxes CHECK (boxes_min BETWEEN 2 AND boxes_max AND boxes_max <= 12),
  ADD CONSTRAINT trial_opened CHECK (
    status = 'draft'
    OR (plan IS NOT NULL AND plan_hash IS NOT NULL AND seal IS NOT NULL AND last_hash IS NOT NULL AND opened_at IS NOT NULL)),
  ADD CONSTRAINT trial_closed CHECK (
    (status = 'closed') = (closed_at IS NOT NULL) AND (status = 'closed') = (opened_secret IS NOT NULL)),
  ADD CONSTRAINT trial_draw_count CHECK (draw_count >= 0);

ALTER TABLE trial_region
  ADD CONSTRAINT trial_region_seats CHECK (seats_taken BETWEEN 0 AND capacity);

ALTER TABLE protocol_variant
  ADD CONSTRAINT protocol_variant_hash CHECK (content_hash ~ '^[0-9a-f]{64}$');

ALTER TABLE shelf_entry
  ADD CONSTRAINT shelf_entry_name CHECK (length(name) BETWEEN 1 AND 80);

ALTER TABLE outing
  ADD CONSTRAINT outing_status CHECK (status IN ('planned', 'drawn', 'abandoned')),
  ADD CONSTRAINT outing_depth CHECK (grain_depth_cm > 0 AND grain_depth_cm <= 7.5),
  ADD CONSTRAINT outing_size CHECK (inner_length_cm > 0 AND inner_width_cm > 0),
  ADD CONSTRAINT outing_grains CHECK (cardinality(grains_at_hand) >= 1),
  ADD CONSTRAINT outing_committed CHECK (
    status <> 'drawn' OR (committed_at IS NOT NULL AND band IS NOT NULL AND koppen_class IS NOT NULL)),
  ADD CONSTRAINT outing_abandoned CHECK ((status = 'abandoned') = (abandoned_at IS NOT NULL));

ALTER TABLE box
  ADD CONSTRAINT box_position CHECK (position BETWEEN 1 AND 12);

ALTER TABLE draw
  ADD CONSTRAINT draw_number CHECK (number >= 1),
  ADD CONSTRAINT draw_hash CHECK (hash ~ '^[0-9a-f]{64}$' AND previous_hash ~ '^[0-9a-f]{64}$');

ALTER TABLE grade
  ADD CONSTRAINT grade_take CHECK (take BETWEEN 0 AND 4),
  ADD CONSTRAINT grade_revision CHECK (revision >= 1);

ALTER TABLE free_text
  ADD CONSTRAINT free_text_length CHECK (length(text) BETWEEN 1 AND 2000);

ALTER TABLE jar
  ADD CONSTRAINT jar_sugar CHECK (sugar_g >= 0);
ALTER TABLE jar_box
  ADD CONSTRAINT jar_box_grain CHECK (grain_g > 0);

-- ── Append only ────────────────────────────────────────────────────────────────────────────────────────
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'rows of % are append only: add a new row instead', TG_TABLE_NAME
    USING ERRCODE = 'restrict_violation';
END $$;

DO $$
DECLARE guarded text;
BEGIN
  FOREACH guarded IN ARRAY ARRAY[
    'protocol_variant', 'agreement', 'draw', 'allocation', 'box_event', 'grade', 'pool_result', 'audit_entry'
  ] LOOP
    EXECUTE format(
      'CREATE TRIGGER append_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', guarded);
    EXECUTE format(
      'CREATE TRIGGER no_truncate BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', guarded);
  END LOOP;
END $$;

-- ── Frozen at opening ──────────────────────────────────────────────────────────────────────────────────
CREATE FUNCTION keep_plan_frozen() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.status = 'draft' THEN
    IF NEW.status = 'closed' THEN
      RAISE EXCEPTION 'a draft can''t be closed: open it first' USING ERRCODE = 'restrict_violation';
    END IF;
    RETURN NEW;
  END IF;
  IF NEW.status = 'draft' OR (OLD.status = 'closed' AND NEW.status <> 'closed') THEN
    RAISE EXCEPTION 'a trial can''t go back from % to %', OLD.status, NEW.status USING ERRCODE = 'restrict_violation';
  END IF;
  IF (NEW.plan, NEW.plan_hash, NEW.seal, NEW.grouping, NEW.boxes_min, NEW.boxes_max, NEW.ends_on, NEW.question,
      NEW.slug, NEW.opened_at, NEW.invented)
    IS DISTINCT FROM
     (OLD.plan, OLD.plan_hash, OLD.seal, OLD.grouping, OLD.boxes_min, OLD.boxes_max, OLD.ends_on, OLD.question,
      OLD.slug, OLD.opened_at, OLD.invented) THEN
    RAISE EXCEPTION 'the plan of trial % is frozen since it opened', OLD.slug USING ERRCODE = 'restrict_violation';
  END IF;
  IF OLD.status = 'closed' AND (NEW.opened_secret, NEW.closed_at, NEW.draw_count, NEW.last_hash)
    IS DISTINCT FROM (OLD.opened_secret, OLD.closed_at, OLD.draw_count, OLD.last_hash) THEN
    RAISE EXCEPTION 'trial % is closed', OLD.slug USING ERRCODE = 'restrict_violation';
  END IF;
  IF NEW.draw_count < OLD.draw_count THEN
    RAISE EXCEPTION 'draws are never taken back' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER plan_frozen BEFORE UPDATE ON trial FOR EACH ROW EXECUTE FUNCTION keep_plan_frozen();

CREATE FUNCTION keep_arms_frozen() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE owner_status text;
BEGIN
  SELECT status INTO owner_status FROM trial WHERE id = COALESCE(NEW.trial_id, OLD.trial_id);
  IF owner_status IS NOT NULL AND owner_status <> 'draft' THEN
    RAISE EXCEPTION 'the recipes of a trial are frozen since it opened' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN COALESCE(NEW, OLD);
END $$;
CREATE TRIGGER arms_frozen BEFORE INSERT OR UPDATE OR DELETE ON arm FOR EACH ROW EXECUTE FUNCTION keep_arms_frozen();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON arm FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- The secret can be written once and read, never replaced.
CREATE TRIGGER append_only BEFORE UPDATE ON trial_secret FOR EACH ROW EXECUTE FUNCTION refuse_change();

-- ── Once drawn, an outing stands ───────────────────────────────────────────────────────────────────────
-- Only the day it is planned for and its ending may still change; boxes come and go with the plan only.
CREATE FUNCTION keep_outing_as_drawn() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.committed_at IS NOT NULL AND
     (NEW.trial_id, NEW.enrolment_id, NEW.grower_id, NEW.site_id, NEW.region_id, NEW.code, NEW.box_kind,
      NEW.inner_length_cm, NEW.inner_width_cm, NEW.grain_depth_cm, NEW.cover, NEW.guard, NEW.grains_at_hand,
      NEW.band, NEW.koppen_class, NEW.committed_at)
    IS DISTINCT FROM
     (OLD.trial_id, OLD.enrolment_id, OLD.grower_id, OLD.site_id, OLD.region_id, OLD.code, OLD.box_kind,
      OLD.inner_length_cm, OLD.inner_width_cm, OLD.grain_depth_cm, OLD.cover, OLD.guard, OLD.grains_at_hand,
      OLD.band, OLD.koppen_class, OLD.committed_at) THEN
    RAISE EXCEPTION 'a drawn set of boxes stands as it was drawn' USING ERRCODE = 'restrict_violation';
  END IF;
  IF OLD.committed_at IS NOT NULL AND NEW.status = 'planned' THEN
    RAISE EXCEPTION 'a draw is never taken back' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER as_drawn BEFORE UPDATE ON outing FOR EACH ROW EXECUTE FUNCTION keep_outing_as_drawn();

CREATE FUNCTION keep_boxes_as_drawn() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM outing WHERE id = COALESCE(OLD.outing_id, NEW.outing_id) AND committed_at IS NOT NULL) THEN
    RAISE EXCEPTION 'a drawn set of boxes stands as it was drawn' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN COALESCE(NEW, OLD);
END $$;
CREATE TRIGGER as_drawn BEFORE INSERT OR UPDATE OR DELETE ON box FOR EACH ROW EXECUTE FUNCTION keep_boxes_as_drawn();

-- ── The application's role ─────────────────────────────────────────────────────────────────────────────
DO $$
BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'grainlot_app') THEN
    CREATE ROLE grainlot_app NOLOGIN;
  END IF;
END $$;
GRANT USAGE ON SCHEMA public TO grainlot_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO grainlot_app;
REVOKE UPDATE, DELETE ON
  protocol_variant, agreement, draw, allocation, box_event, grade, pool_result, audit_entry FROM grainlot_app;
REVOKE DELETE ON trial, household, grower, enrolment, outing, trial_region FROM grainlot_app;
REVOKE UPDATE ON trial_secret FROM grainlot_app;

-- The runner's own table: the application may read how far the database has come, no more.
DO $$
BEGIN
  IF to_regclass('_prisma_migrations') IS NOT NULL THEN
    REVOKE INSERT, UPDATE, DELETE ON _prisma_migrations FROM grainlot_app;
  END IF;
END $$;
