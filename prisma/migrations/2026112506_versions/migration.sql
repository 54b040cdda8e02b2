-- Counts the changes of a jar and of a place; a change says which one it was made from.
ALTER TABLE jar ADD COLUMN version INTEGER NOT NULL DEFAULT 1;
ALTER TABLE site_place ADD COLUMN version INTEGER NOT NULL DEFAULT 1;
-- A picture sent through a helper link: whoever holds one may see it and take it away again.
ALTER TABLE photo ADD COLUMN via_helper BOOLEAN NOT NULL DEFAULT false;
