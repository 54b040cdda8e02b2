-- A draft's choices for its plan, amendments of an open plan, the counts new draws rest on, and one reading of
-- what stands of a box.

-- ── Tables and columns, as schema.prisma has them ──────────────────────────────────────────────────────
ALTER TABLE trial
  ADD COLUMN plan_choices JSONB,
  ADD COLUMN amended_ends_on DATE,
  ADD COLUMN amended_ends_at_boxes INTEGER;

ALTER TABLE draw ADD COLUMN fetch_after_days INTEGER;

CREATE TABLE draw_tally (
  trial_id UUID NOT NULL,
  band TEXT NOT NULL,
  region TEXT NOT NULL,
  draws INTEGER NOT NULL,
  blocks JSONB NOT NULL,
  CONSTRAINT draw_tally_pkey PRIMARY KEY (trial_id, band, region),
  CONSTRAINT draw_tally_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE CASCADE ON UPDATE CASCADE
);

CREATE TABLE plan_amendment (
  id UUID NOT NULL,
  trial_id UUID NOT NULL,
  number INTEGER NOT NULL,
  made_at TIMESTAMPTZ(3) NOT NULL,
  grower_id UUID NOT NULL,
  change JSONB NOT NULL,
  reason TEXT NOT NULL,
  previous_hash TEXT NOT NULL,
  hash TEXT NOT NULL,
  CONSTRAINT plan_amendment_pkey PRIMARY KEY (id),
  CONSTRAINT plan_amendment_trial_id_fkey FOREIGN KEY (trial_id) REFERENCES trial (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT plan_amendment_grower_id_fkey FOREIGN KEY (grower_id) REFERENCES grower (id) ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX plan_amendment_hash_key ON plan_amendment (hash);
CREATE UNIQUE INDEX plan_amendment_trial_id_number_key ON plan_amendment (trial_id, number);

CREATE INDEX outing_enrolment_id_idx ON outing (enrolment_id);

-- ── Values ─────────────────────────────────────────────────────────────────────────────────────────────
ALTER TABLE trial
  ADD CONSTRAINT trial_amended CHECK (
    status <> 'draft' OR (amended_ends_on IS NULL AND amended_ends_at_boxes IS NULL)),
  ADD CONSTRAINT trial_amended_boxes CHECK (amended_ends_at_boxes >= 1);

ALTER TABLE draw ADD CONSTRAINT draw_fetch_after CHECK (fetch_after_days BETWEEN 1 AND 60);

ALTER TABLE draw_tally ADD CONSTRAINT draw_tally_draws CHECK (draws >= 0);

ALTER TABLE plan_amendment
  ADD CONSTRAINT plan_amendment_number CHECK (number >= 1),
  ADD CONSTRAINT plan_amendment_reason CHECK (length(reason) BETWEEN 1 AND 500),
  ADD CONSTRAINT plan_amendment_hash CHECK (hash ~ '^[0-9a-f]{64}$' AND previous_hash ~ '^[0-9a-f]{64}$');

-- ── Amendments stand, and only an open trial has new ones ──────────────────────────────────────────────
CREATE TRIGGER append_only BEFORE UPDATE OR DELETE ON plan_amendment FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER no_truncate BEFORE TRUNCATE ON plan_amendment FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE FUNCTION keep_amendments_to_open_trials() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT status FROM trial WHERE id = NEW.trial_id) IS DISTINCT FROM 'open' THEN
    RAISE EXCEPTION 'only the plan of an open trial can be amended' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER open_only BEFORE INSERT ON plan_amendment
  FOR EACH ROW EXECUTE FUNCTION keep_amendments_to_open_trials();

CREATE FUNCTION keep_choices_frozen() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.status <> 'draft' AND NEW.plan_choices IS DISTINCT FROM OLD.plan_choices THEN
    RAISE EXCEPTION 'the plan of trial % is frozen since it opened', OLD.slug USING ERRCODE = 'restrict_violation';
  END IF;
  IF (OLD.status <> 'open' OR NEW.status <> 'open')
    AND (NEW.amended_ends_on, NEW.amended_ends_at_boxes)
      IS DISTINCT FROM (OLD.amended_ends_on, OLD.amended_ends_at_boxes) THEN
    RAISE EXCEPTION 'only the plan of an open trial can be amended' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER choices_frozen BEFORE UPDATE ON trial FOR EACH ROW EXECUTE FUNCTION keep_choices_frozen();

-- ── A draft's regions may change; nobody's seat is taken away ──────────────────────────────────────────
CREATE FUNCTION keep_regions_once_open() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT status FROM trial WHERE id = OLD.trial_id) IN ('open', 'closed') THEN
    RAISE EXCEPTION 'a region stays in its trial once that has opened' USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN OLD;
END $$;
CREATE TRIGGER regions_stay BEFORE DELETE ON trial_region FOR EACH ROW EXECUTE FUNCTION keep_regions_once_open();

-- ── What stands of a box ───────────────────────────────────────────────────────────────────────────────
-- Every drawn box of a trial with what stands of it. `until` is when the trial closed, and then only what the
-- server had received by then counts; null while it is open.
-- recorded, take, clean_take: the latest unmasked revision by the outing's own grower.
-- Events withdrawn count for nothing; unrecordable goes by the latest event in force on the matter.
-- lost: growth can't be recorded whatever grade there is; or there is no grade and the set was given up or the
-- trial has closed.
-- Each part is read as a set, not box by box: a trial of 100,000 boxes in one pass, a small one by its indexes.
CREATE INDEX box_event_withdrawal ON box_event (withdraws_id, received_at) WHERE withdraws_id IS NOT NULL;

CREATE FUNCTION drawn_boxes(of_trial uuid, until timestamptz)
RETURNS TABLE (
  box_id uuid, box text, "position" int, outing_id uuid, outing text, band text, region_id uuid, enrolment_id uuid,
  arm_id uuid, abandoned boolean, recorded boolean, take int, clean_take boolean, set_out boolean, opened boolean,
  unrecordable boolean, lost boolean)
LANGUAGE sql STABLE AS $$
  WITH own AS (
    SELECT DISTINCT ON (grade.box_id) grade.box_id, grade.take, grade.clean_take
    FROM outing JOIN box ON box.outing_id = outing.id
    JOIN grade ON grade.box_id = box.id AND grade.grader_id = outing.grower_id AND NOT grade.masked
    WHERE outing.trial_id = of_trial AND grade.received_at <= coalesce(until, 'infinity')
    ORDER BY grade.box_id, grade.revision DESC),
  told AS NOT MATERIALIZED (
    SELECT event.box_id, event.kind, event.received_at, event.id
    FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
    WHERE outing.trial_id = of_trial AND event.received_at <= coalesce(until, 'infinity')
      AND NOT EXISTS (SELECT FROM box_event later
        WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL
          AND later.received_at <= coalesce(until, 'infinity'))),
  stage AS (
    SELECT box_id, bool_or(kind = 'set-out') AS set_out, bool_or(kind = 'opened') AS opened
    FROM told WHERE kind IN ('set-out', 'opened') GROUP BY box_id),
  matter AS (
    SELECT DISTINCT ON (box_id) box_id, kind = 'growth-not-recordable' AS unrecordable
    FROM told WHERE kind IN ('growth-recordable', 'growth-not-recordable')
    ORDER BY box_id, received_at DESC, id DESC)
  SELECT box.id, box.code, box.position, outing.id, outing.code, outing.band, outing.region_id, outing.enrolment_id,
    allocation.arm_id, outing.status = 'abandoned', own.box_id IS NOT NULL, own.take, own.clean_take,
    coalesce(stage.set_out, false), coalesce(stage.opened, false), coalesce(matter.unrecordable, false),
    coalesce(matter.unrecordable, false)
      OR (own.box_id IS NULL AND (outing.status = 'abandoned' OR until IS NOT NULL))
  FROM outing
  JOIN box ON box.outing_id = outing.id
  JOIN allocation ON allocation.box_id = box.id
  LEFT JOIN own ON own.box_id = box.id
  LEFT JOIN stage ON stage.box_id = box.id
  LEFT JOIN matter ON matter.box_id = box.id
  WHERE outing.trial_id = of_trial
$$;

-- ── The application's role ─────────────────────────────────────────────────────────────────────────────
GRANT SELECT, INSERT, UPDATE, DELETE ON draw_tally TO grainlot_app;
GRANT SELECT, INSERT ON plan_amendment TO grainlot_app;
GRANT DELETE ON trial_region TO grainlot_app;
