-- ── What goes with a lead's account ────────────────────────────────────────────────────────────────────
-- Whose words a mail holds, where they are somebody's own: it goes with their account, too.
ALTER TABLE mail
  ADD COLUMN author_id UUID,
  ADD CONSTRAINT mail_author_id_fkey FOREIGN KEY (author_id) REFERENCES account (id) ON DELETE CASCADE ON UPDATE CASCADE;
CREATE INDEX mail_author_id_idx ON mail (author_id);

-- A draft that nobody leads any more is deleted; what has opened stays.
CREATE FUNCTION keep_opened_trials() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.status <> 'draft' THEN
    RAISE EXCEPTION 'trial % has opened and stays', OLD.slug USING ERRCODE = 'restrict_violation';
  END IF;
  RETURN OLD;
END $$;
CREATE TRIGGER drafts_only BEFORE DELETE ON trial FOR EACH ROW EXECUTE FUNCTION keep_opened_trials();
GRANT DELETE ON trial TO grainlot_app;
