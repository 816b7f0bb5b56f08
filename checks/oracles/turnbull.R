# Readings between limits without a shape assumed: survfit of the survival package (Turnbull's estimate). It stops once no share moves by
# 5e-5, so the output is rounded to five digits. Invented readings, none tied. Run: Rscript turnbull.R > turnbull.json
suppressMessages(library(survival))
number <- function(x, digits) ifelse(is.finite(x), formatC(x, digits = digits, format = "g", width = 1), "null")
vector <- function(x, digits = 12) paste0("[", paste(number(x, digits), collapse = ", "), "]")
one <- function(seed, n, kinds) {
  set.seed(seed)
  x <- signif(rlnorm(n, 4, 1.4), 6)
  kind <- sample(1:4, n, TRUE, kinds)
  lo <- ifelse(kind == 2, 0, ifelse(kind == 4, signif(x * runif(n), 5), ifelse(kind == 3, signif(x * runif(n), 5), x)))
  hi <- ifelse(kind == 3, Inf, ifelse(kind == 1, x, signif(x * (1 + 2 * runif(n)), 5)))
  fit <- survfit(Surv(ifelse(lo == 0, NA, lo), ifelse(is.finite(hi), hi, NA), type = "interval2") ~ 1)
  sprintf('  {"seed": %d, "low": %s, "high": %s, "times": %s, "above": %s}', seed, vector(lo), vector(hi), vector(fit$time), vector(round(fit$surv, 5)))
}
cat('{\n "tool": "', R.version.string, ", survival ", format(packageVersion("survival")), '",\n "studies": [\n', sep = "")
cat(paste(one(11, 25, c(.5, .2, .1, .2)), one(12, 60, c(.2, .3, .2, .3)), one(13, 40, c(0, .3, .2, .5)), sep = ",\n"), "\n ]\n}\n")
