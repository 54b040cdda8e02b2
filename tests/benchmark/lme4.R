# The pool's model of one table by lme4: Rscript lme4.R FILE.csv [tight | no-derivatives] > fit.json. Needs R with lme4 and
# jsonlite. lme4's default tolerances stop a little short of the minimum; "tight" goes on to it and takes longer.
# "no-derivatives" leaves out those it takes at the end to check convergence, about a quarter of the work.
suppressPackageStartupMessages({ library(lme4); library(jsonlite) })
args <- commandArgs(TRUE)
d <- read.csv(args[1], stringsAsFactors = TRUE)
d <- d[d$status == "graded" & !is.na(d$outcome), ]
control <- if ("tight" %in% args) {
  lmerControl(optCtrl = list(xtol_abs = 1e-12, ftol_abs = 1e-12, maxeval = 1e4))
} else {
  lmerControl(calc.derivs = !("no-derivatives" %in% args))
}
fit <- lmer(outcome ~ 0 + band:arm + (1 | outing) + (1 | grower) + (1 | grower:arm), d, control = control)
sd <- as.data.frame(VarCorr(fit))
variance <- setNames(as.list(sd$vcov), sd$grp)
cells <- expand.grid(band = levels(d$band), arm = levels(d$arm))
cells$estimate <- fixef(fit)[paste0("band", cells$band, ":arm", cells$arm)]
cells$se <- sqrt(diag(as.matrix(vcov(fit))))[paste0("band", cells$band, ":arm", cells$arm)]
write(toJSON(list(
  versions = list(R = R.version.string, lme4 = as.character(packageVersion("lme4"))),
  boxes = nrow(d), criterion = REMLcrit(fit),
  variance = list(outing = variance$outing, grower = variance$grower, growerArm = variance$`grower:arm`, residual = variance$Residual),
  cells = cells
), digits = NA, auto_unbox = TRUE), stdout())
