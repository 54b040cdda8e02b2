-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateTable
CREATE TABLE "account" (
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "password_hash" TEXT NOT NULL,
    "is_admin" BOOLEAN NOT NULL DEFAULT false,
    "may_lead" BOOLEAN NOT NULL DEFAULT false,
    "session_version" INTEGER NOT NULL DEFAULT 1,
    "disabled_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "grower_id" UUID NOT NULL,

    CONSTRAINT "account_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "account_token" (
    "id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "token_hash" TEXT NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "account_token_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "household" (
    "id" UUID NOT NULL,
    "join_code" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "household_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "grower" (
    "id" UUID NOT NULL,
    "household_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "left_at" TIMESTAMPTZ(3),

    CONSTRAINT "grower_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "site" (
    "id" UUID NOT NULL,
    "grower_id" UUID NOT NULL,
    "household_id" UUID NOT NULL,
    "koppen_class" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "site_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "site_place" (
    "site_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "cell_latitude" DECIMAL(4,1) NOT NULL,
    "cell_longitude" DECIMAL(4,1) NOT NULL,
    "elevation_m" INTEGER NOT NULL,
    "climate" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "site_place_pkey" PRIMARY KEY ("site_id")
);

-- CreateTable
CREATE TABLE "region" (
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "south" DECIMAL(4,1) NOT NULL,
    "west" DECIMAL(4,1) NOT NULL,
    "north" DECIMAL(4,1) NOT NULL,
    "east" DECIMAL(4,1) NOT NULL,

    CONSTRAINT "region_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "trial" (
    "id" UUID NOT NULL,
    "slug" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "question" TEXT NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'draft',
    "invented" BOOLEAN NOT NULL DEFAULT false,
    "join_code" TEXT NOT NULL,
    "boxes_min" INTEGER NOT NULL,
    "boxes_max" INTEGER NOT NULL,
    "ends_on" DATE NOT NULL,
    "grouping" JSONB NOT NULL,
    "plan" JSONB,
    "plan_hash" TEXT,
    "seal" TEXT,
    "opened_secret" TEXT,
    "draw_count" INTEGER NOT NULL DEFAULT 0,
    "last_hash" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "opened_at" TIMESTAMPTZ(3),
    "closed_at" TIMESTAMPTZ(3),

    CONSTRAINT "trial_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "trial_secret" (
    "trial_id" UUID NOT NULL,
    "ciphertext" BYTEA NOT NULL,

    CONSTRAINT "trial_secret_pkey" PRIMARY KEY ("trial_id")
);

-- CreateTable
CREATE TABLE "trial_lead" (
    "trial_id" UUID NOT NULL,
    "account_id" UUID NOT NULL,

    CONSTRAINT "trial_lead_pkey" PRIMARY KEY ("trial_id","account_id")
);

-- CreateTable
CREATE TABLE "trial_region" (
    "trial_id" UUID NOT NULL,
    "region_id" UUID NOT NULL,
    "capacity" INTEGER NOT NULL,
    "seats_taken" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "trial_region_pkey" PRIMARY KEY ("trial_id","region_id")
);

-- CreateTable
CREATE TABLE "protocol_variant" (
    "id" UUID NOT NULL,
    "content_hash" TEXT NOT NULL,
    "grain" TEXT NOT NULL,
    "content" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "protocol_variant_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "shelf_entry" (
    "account_id" UUID NOT NULL,
    "variant_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "shelf_entry_pkey" PRIMARY KEY ("account_id","variant_id")
);

-- CreateTable
CREATE TABLE "arm" (
    "id" UUID NOT NULL,
    "trial_id" UUID NOT NULL,
    "variant_id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "arm_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "enrolment" (
    "id" UUID NOT NULL,
    "trial_id" UUID NOT NULL,
    "household_id" UUID NOT NULL,
    "region_id" UUID NOT NULL,
    "pseudonym" TEXT NOT NULL,
    "joined_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "enrolment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "agreement" (
    "id" UUID NOT NULL,
    "trial_id" UUID NOT NULL,
    "grower_id" UUID NOT NULL,
    "version" TEXT NOT NULL,
    "agreed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "agreement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outing" (
    "id" UUID NOT NULL,
    "trial_id" UUID NOT NULL,
    "enrolment_id" UUID NOT NULL,
    "grower_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "region_id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "day" DATE NOT NULL,
    "box_kind" TEXT NOT NULL,
    "inner_length_cm" DECIMAL(5,1) NOT NULL,
    "inner_width_cm" DECIMAL(5,1) NOT NULL,
    "grain_depth_cm" DECIMAL(4,1) NOT NULL,
    "cover" TEXT NOT NULL,
    "guard" TEXT NOT NULL,
    "grains_at_hand" TEXT[],
    "status" TEXT NOT NULL DEFAULT 'planned',
    "band" TEXT,
    "koppen_class" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "committed_at" TIMESTAMPTZ(3),
    "abandoned_at" TIMESTAMPTZ(3),
    "abandon_reason" TEXT,

    CONSTRAINT "outing_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "box" (
    "id" UUID NOT NULL,
    "outing_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "code" TEXT NOT NULL,

    CONSTRAINT "box_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "draw" (
    "id" UUID NOT NULL,
    "trial_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "outing_id" UUID NOT NULL,
    "algorithm" TEXT NOT NULL,
    "inputs" JSONB NOT NULL,
    "result" JSONB NOT NULL,
    "previous_hash" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "drawn_at" TIMESTAMPTZ(3) NOT NULL,
    "time_salt" TEXT NOT NULL,

    CONSTRAINT "draw_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "allocation" (
    "box_id" UUID NOT NULL,
    "arm_id" UUID NOT NULL,
    "draw_id" UUID NOT NULL,

    CONSTRAINT "allocation_pkey" PRIMARY KEY ("box_id")
);

-- CreateTable
CREATE TABLE "box_event" (
    "id" UUID NOT NULL,
    "box_id" UUID NOT NULL,
    "grower_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "occurred_at" TIMESTAMPTZ(3) NOT NULL,
    "offset_minutes" INTEGER NOT NULL,
    "withdraws_id" UUID,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "box_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "grade" (
    "id" UUID NOT NULL,
    "box_id" UUID NOT NULL,
    "grader_id" UUID NOT NULL,
    "masked" BOOLEAN NOT NULL DEFAULT false,
    "revision" INTEGER NOT NULL,
    "measures" JSONB NOT NULL,
    "take" INTEGER,
    "clean_take" BOOLEAN,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "offset_minutes" INTEGER NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "grade_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "free_text" (
    "id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "subject_id" UUID NOT NULL,
    "text" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "free_text_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "photo" (
    "id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "box_id" UUID NOT NULL,
    "sha256" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "width_px" INTEGER NOT NULL,
    "height_px" INTEGER NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "photo_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "jar" (
    "id" UUID NOT NULL,
    "grower_id" UUID NOT NULL,
    "sugar_g" INTEGER NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "jar_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "jar_box" (
    "jar_id" UUID NOT NULL,
    "box_id" UUID NOT NULL,
    "grain_g" INTEGER NOT NULL,

    CONSTRAINT "jar_box_pkey" PRIMARY KEY ("jar_id","box_id")
);

-- CreateTable
CREATE TABLE "pool_result" (
    "id" UUID NOT NULL,
    "trial_id" UUID NOT NULL,
    "cut_sha256" TEXT NOT NULL,
    "engine" TEXT NOT NULL,
    "boxes" INTEGER NOT NULL,
    "result" JSONB NOT NULL,
    "published" JSONB NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "pool_result_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "pool_state" (
    "trial_id" UUID NOT NULL,
    "wanted_at" TIMESTAMPTZ(3) NOT NULL,
    "cut_at" TIMESTAMPTZ(3),
    "cut_sha256" TEXT,
    "failed_at" TIMESTAMPTZ(3),
    "failure" TEXT,

    CONSTRAINT "pool_state_pkey" PRIMARY KEY ("trial_id")
);

-- CreateTable
CREATE TABLE "audit_entry" (
    "id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "grower_id" UUID,
    "action" TEXT NOT NULL,
    "subject_id" UUID,
    "detail" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "audit_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mail" (
    "id" UUID NOT NULL,
    "account_id" UUID,
    "to_address" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "failure" TEXT,

    CONSTRAINT "mail_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "receipt" (
    "id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "route" TEXT NOT NULL,
    "content_sha256" TEXT NOT NULL,
    "status" INTEGER NOT NULL,
    "answer" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "receipt_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rate_limit" (
    "key" VARCHAR(255) NOT NULL,
    "points" INTEGER NOT NULL DEFAULT 0,
    "expire" BIGINT,

    CONSTRAINT "rate_limit_pkey" PRIMARY KEY ("key")
);

-- CreateIndex
CREATE UNIQUE INDEX "account_email_key" ON "account"("email");

-- CreateIndex
CREATE UNIQUE INDEX "account_grower_id_key" ON "account"("grower_id");

-- CreateIndex
CREATE UNIQUE INDEX "account_token_token_hash_key" ON "account_token"("token_hash");

-- CreateIndex
CREATE INDEX "account_token_account_id_idx" ON "account_token"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "household_join_code_key" ON "household"("join_code");

-- CreateIndex
CREATE INDEX "grower_household_id_idx" ON "grower"("household_id");

-- CreateIndex
CREATE INDEX "site_grower_id_idx" ON "site"("grower_id");

-- CreateIndex
CREATE INDEX "site_place_account_id_idx" ON "site_place"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "region_code_key" ON "region"("code");

-- CreateIndex
CREATE UNIQUE INDEX "trial_slug_key" ON "trial"("slug");

-- CreateIndex
CREATE UNIQUE INDEX "trial_join_code_key" ON "trial"("join_code");

-- CreateIndex
CREATE INDEX "trial_status_id_idx" ON "trial"("status", "id");

-- CreateIndex
CREATE INDEX "trial_lead_account_id_idx" ON "trial_lead"("account_id");

-- CreateIndex
CREATE UNIQUE INDEX "protocol_variant_content_hash_key" ON "protocol_variant"("content_hash");

-- CreateIndex
CREATE UNIQUE INDEX "arm_trial_id_code_key" ON "arm"("trial_id", "code");

-- CreateIndex
CREATE UNIQUE INDEX "arm_trial_id_variant_id_key" ON "arm"("trial_id", "variant_id");

-- CreateIndex
CREATE UNIQUE INDEX "arm_trial_id_position_key" ON "arm"("trial_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "enrolment_trial_id_household_id_key" ON "enrolment"("trial_id", "household_id");

-- CreateIndex
CREATE UNIQUE INDEX "enrolment_trial_id_pseudonym_key" ON "enrolment"("trial_id", "pseudonym");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_trial_id_grower_id_version_key" ON "agreement"("trial_id", "grower_id", "version");

-- CreateIndex
CREATE INDEX "outing_grower_id_id_idx" ON "outing"("grower_id", "id");

-- CreateIndex
CREATE INDEX "outing_trial_id_status_id_idx" ON "outing"("trial_id", "status", "id");

-- CreateIndex
CREATE UNIQUE INDEX "outing_trial_id_code_key" ON "outing"("trial_id", "code");

-- CreateIndex
CREATE UNIQUE INDEX "box_outing_id_position_key" ON "box"("outing_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "draw_outing_id_key" ON "draw"("outing_id");

-- CreateIndex
CREATE UNIQUE INDEX "draw_hash_key" ON "draw"("hash");

-- CreateIndex
CREATE UNIQUE INDEX "draw_trial_id_number_key" ON "draw"("trial_id", "number");

-- CreateIndex
CREATE INDEX "allocation_arm_id_idx" ON "allocation"("arm_id");

-- CreateIndex
CREATE INDEX "allocation_draw_id_idx" ON "allocation"("draw_id");

-- CreateIndex
CREATE UNIQUE INDEX "box_event_withdraws_id_key" ON "box_event"("withdraws_id");

-- CreateIndex
CREATE INDEX "box_event_box_id_idx" ON "box_event"("box_id");

-- CreateIndex
CREATE UNIQUE INDEX "grade_box_id_grader_id_masked_revision_key" ON "grade"("box_id", "grader_id", "masked", "revision");

-- CreateIndex
CREATE INDEX "free_text_subject_id_idx" ON "free_text"("subject_id");

-- CreateIndex
CREATE INDEX "free_text_account_id_idx" ON "free_text"("account_id");

-- CreateIndex
CREATE INDEX "photo_box_id_idx" ON "photo"("box_id");

-- CreateIndex
CREATE INDEX "photo_account_id_idx" ON "photo"("account_id");

-- CreateIndex
CREATE INDEX "jar_grower_id_idx" ON "jar"("grower_id");

-- CreateIndex
CREATE INDEX "pool_result_trial_id_computed_at_idx" ON "pool_result"("trial_id", "computed_at");

-- CreateIndex
CREATE UNIQUE INDEX "pool_result_trial_id_cut_sha256_engine_key" ON "pool_result"("trial_id", "cut_sha256", "engine");

-- CreateIndex
CREATE INDEX "audit_entry_subject_id_idx" ON "audit_entry"("subject_id");

-- CreateIndex
CREATE INDEX "mail_sent_at_id_idx" ON "mail"("sent_at", "id");

-- CreateIndex
CREATE INDEX "receipt_account_id_idx" ON "receipt"("account_id");

-- AddForeignKey
ALTER TABLE "account" ADD CONSTRAINT "account_grower_id_fkey" FOREIGN KEY ("grower_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "account_token" ADD CONSTRAINT "account_token_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "grower" ADD CONSTRAINT "grower_household_id_fkey" FOREIGN KEY ("household_id") REFERENCES "household"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "site" ADD CONSTRAINT "site_grower_id_fkey" FOREIGN KEY ("grower_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "site" ADD CONSTRAINT "site_household_id_fkey" FOREIGN KEY ("household_id") REFERENCES "household"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "site_place" ADD CONSTRAINT "site_place_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "site_place" ADD CONSTRAINT "site_place_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_secret" ADD CONSTRAINT "trial_secret_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_lead" ADD CONSTRAINT "trial_lead_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_lead" ADD CONSTRAINT "trial_lead_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_region" ADD CONSTRAINT "trial_region_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_region" ADD CONSTRAINT "trial_region_region_id_fkey" FOREIGN KEY ("region_id") REFERENCES "region"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shelf_entry" ADD CONSTRAINT "shelf_entry_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shelf_entry" ADD CONSTRAINT "shelf_entry_variant_id_fkey" FOREIGN KEY ("variant_id") REFERENCES "protocol_variant"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "arm" ADD CONSTRAINT "arm_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "arm" ADD CONSTRAINT "arm_variant_id_fkey" FOREIGN KEY ("variant_id") REFERENCES "protocol_variant"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "enrolment" ADD CONSTRAINT "enrolment_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "enrolment" ADD CONSTRAINT "enrolment_household_id_fkey" FOREIGN KEY ("household_id") REFERENCES "household"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "enrolment" ADD CONSTRAINT "enrolment_region_id_fkey" FOREIGN KEY ("region_id") REFERENCES "region"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_grower_id_fkey" FOREIGN KEY ("grower_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outing" ADD CONSTRAINT "outing_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outing" ADD CONSTRAINT "outing_enrolment_id_fkey" FOREIGN KEY ("enrolment_id") REFERENCES "enrolment"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outing" ADD CONSTRAINT "outing_grower_id_fkey" FOREIGN KEY ("grower_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outing" ADD CONSTRAINT "outing_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outing" ADD CONSTRAINT "outing_region_id_fkey" FOREIGN KEY ("region_id") REFERENCES "region"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "box" ADD CONSTRAINT "box_outing_id_fkey" FOREIGN KEY ("outing_id") REFERENCES "outing"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "draw" ADD CONSTRAINT "draw_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "draw" ADD CONSTRAINT "draw_outing_id_fkey" FOREIGN KEY ("outing_id") REFERENCES "outing"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "allocation" ADD CONSTRAINT "allocation_box_id_fkey" FOREIGN KEY ("box_id") REFERENCES "box"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "allocation" ADD CONSTRAINT "allocation_arm_id_fkey" FOREIGN KEY ("arm_id") REFERENCES "arm"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "allocation" ADD CONSTRAINT "allocation_draw_id_fkey" FOREIGN KEY ("draw_id") REFERENCES "draw"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "box_event" ADD CONSTRAINT "box_event_box_id_fkey" FOREIGN KEY ("box_id") REFERENCES "box"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "box_event" ADD CONSTRAINT "box_event_grower_id_fkey" FOREIGN KEY ("grower_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "box_event" ADD CONSTRAINT "box_event_withdraws_id_fkey" FOREIGN KEY ("withdraws_id") REFERENCES "box_event"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "grade" ADD CONSTRAINT "grade_box_id_fkey" FOREIGN KEY ("box_id") REFERENCES "box"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "grade" ADD CONSTRAINT "grade_grader_id_fkey" FOREIGN KEY ("grader_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "free_text" ADD CONSTRAINT "free_text_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_box_id_fkey" FOREIGN KEY ("box_id") REFERENCES "box"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "jar" ADD CONSTRAINT "jar_grower_id_fkey" FOREIGN KEY ("grower_id") REFERENCES "grower"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "jar_box" ADD CONSTRAINT "jar_box_jar_id_fkey" FOREIGN KEY ("jar_id") REFERENCES "jar"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "jar_box" ADD CONSTRAINT "jar_box_box_id_fkey" FOREIGN KEY ("box_id") REFERENCES "box"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pool_result" ADD CONSTRAINT "pool_result_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pool_state" ADD CONSTRAINT "pool_state_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "trial"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "receipt" ADD CONSTRAINT "receipt_account_id_fkey" FOREIGN KEY ("account_id") REFERENCES "account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
