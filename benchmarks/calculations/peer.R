# The same calculations by R. Run: Rscript peer.R JOB INPUTS RUNS. Inputs are plain numbers, a line each, so that no package is needed.
# Warms up once, takes the least processor time of RUNS runs (reading and starting left out), prints {"seconds", "tool", "results"}.
#
# two-by-two: R's own fisher.test: conditional estimate, exact limits and p, without mid-p and risk ratio.
# censored: survreg for the fit; profile limits of mean and geometric mean by optimise inside uniroot, values by their sums.
arguments <- commandArgs(trailingOnly = TRUE)
job <- arguments[1]
lines <- lapply(strsplit(readLines(arguments[2]), " "), as.numeric)
runs <- as.integer(arguments[3])
tool <- R.version.string

two_by_two <- function(cells) {
  found <- fisher.test(matrix(cells, 2, byrow = TRUE))
  c(found$estimate, found$conf.int, found$p.value)
}

if (job == "censored") {
  suppressMessages(library(survival))
  tool <- paste0(tool, ", survival ", format(packageVersion("survival")))
}

# Low and high of each reading in turn; 0 where there is no low.
censored <- function(spans) {
  low <- spans[c(TRUE, FALSE)]; high <- spans[c(FALSE, TRUE)]
  fit <- survreg(Surv(ifelse(low == 0, NA, low), high, type = "interval2") ~ 1, dist = "lognormal",
    control = survreg.control(rel.tolerance = 1e-12, maxiter = 100))
  m <- unname(coef(fit)); s <- fit$scale
  y <- log(low[low == high]); n <- length(y); s1 <- sum(y); s2 <- sum(y * y)
  key <- paste(low, high)[low != high]
  open <- !duplicated(key)
  count <- as.vector(table(factor(key, unique(key))))
  a <- log(low[low != high][open]); b <- log(high[low != high][open])
  loglik <- function(m, s) -n * (log(s) + log(2 * pi) / 2) - (s2 - 2 * m * s1 + n * m * m) / (2 * s * s) - s1 +
    sum(count * log(pnorm(b, m, s) - pnorm(a, m, s)))
  top <- loglik(m, s); wanted <- top - qchisq(.95, 1) / 2
  tight <- function(f, range) optimise(f, range, maximum = TRUE, tol = 1e-8)$objective
  sd <- sqrt(diag(vcov(fit))); near <- log(s) + c(-6, 6) * sd[2]
  limits <- function(profile, at, error) {
    f <- function(k) profile(k) - wanted
    exp(c(uniroot(f, at + c(-2.2, 0) * error, extendInt = "upX", tol = 1e-9)$root, uniroot(f, at + c(0, 2.2) * error, extendInt = "downX", tol = 1e-9)$root))
  }
  c(m, s, top,
    limits(function(k) tight(function(t) loglik(k - exp(2 * t) / 2, exp(t)), near), m + s^2 / 2, sd[1] + s * s * sd[2]),
    limits(function(k) tight(function(t) loglik(k, exp(t)), near), m, sd[1]))
}

work <- list("two-by-two" = two_by_two, "censored" = censored)[[job]]
results <- lapply(lines, work)
seconds <- sapply(seq_len(runs), function(run) {
  began <- sum(proc.time()[c("user.self", "sys.self")])
  lapply(lines, work)
  sum(proc.time()[c("user.self", "sys.self")]) - began
})
vector <- function(x) paste0("[", paste(formatC(x, digits = 15, format = "g", width = 1), collapse = ","), "]")
cat('{"seconds": ', min(seconds), ', "tool": "', tool, '", "results": [', paste(sapply(results, vector), collapse = ","), "]}\n", sep = "")
