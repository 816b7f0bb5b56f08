# Lognormal fits of left, right and interval censored readings by survreg; profile limits by R's own optimise and uniroot.
# Invented readings, printed beside the answers. Run: Rscript censored.R > censored.json
suppressMessages(library(survival))
number <- function(x) ifelse(is.finite(x), formatC(x, digits = 12, format = "g", width = 1), "null")
vector <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
loglik <- function(lo, hi, m, s) sum(ifelse(lo == hi, dlnorm(lo, m, s, log = TRUE),
  log(plnorm(hi, m, s) - ifelse(lo == 0, 0, plnorm(lo, m, s)))))
one <- function(seed, n) {
  set.seed(seed)
  x <- signif(rlnorm(n, 4, 1.6), 3)
  kind <- sample(1:4, n, TRUE, c(.5, .25, .1, .15))
  lo <- ifelse(kind == 2, 0, ifelse(kind == 4, signif(x / 2, 2), x))
  hi <- ifelse(kind == 3, Inf, ifelse(kind == 4, signif(x * 2, 2), x))
  hi[kind == 2] <- signif(x[kind == 2] * 1.5, 1) + 1
  surv <- Surv(ifelse(lo == 0, NA, lo), ifelse(is.finite(hi), hi, NA), type = "interval2")
  fit <- survreg(surv ~ 1, dist = "lognormal", control = survreg.control(rel.tolerance = 1e-13, maxiter = 200))
  m <- unname(coef(fit)); s <- fit$scale
  top <- loglik(lo, hi, m, s); wanted <- top - qchisq(.95, 1) / 2
  tight <- function(f, range) optimise(f, range, maximum = TRUE, tol = 1e-10)$objective
  profile <- list(
    geometricMean = function(k) tight(function(t) loglik(lo, hi, k, exp(t)), log(s) + c(-3, 3)),
    mean = function(k) tight(function(t) loglik(lo, hi, k - exp(2 * t) / 2, exp(t)), log(s) + c(-3, 3)))
  at <- list(geometricMean = m, mean = m + s^2 / 2)
  limits <- sapply(names(profile), function(name) {
    f <- function(k) profile[[name]](k) - wanted
    exp(c(uniroot(f, c(at[[name]] - 4, at[[name]]), tol = 1e-11)$root, uniroot(f, c(at[[name]], at[[name]] + 8), tol = 1e-11)$root))
  })
  sprintf('  {"seed": %d, "low": %s, "high": %s, "meanLog": %s, "sdLog": %s, "logLikelihood": %s, "geometricMean": %s, "mean": %s}', seed,
    vector(lo), vector(hi), number(m), number(s), number(top), vector(limits[, "geometricMean"]), vector(limits[, "mean"]))
}
cat('{\n "tool": "', R.version.string, ", survival ", format(packageVersion("survival")), '",\n "studies": [\n', sep = "")
cat(paste(one(4, 20), one(5, 60), one(6, 35), sep = ",\n"), "\n ]\n}\n")
