# Stratified tables and matched sets by R: mantelhaen.test (stats) and clogit (survival), beside exact-tables.py.
# Run: Rscript stratified.R > stratified.json
suppressMessages(library(survival))
number <- function(x) ifelse(is.finite(x), formatC(x, digits = 12, format = "g", width = 1), "null")
vector <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
strata <- list(
  vanilla_by_sex = array(c(27, 3, 4, 10, 16, 0, 7, 8), c(2, 2, 2)),
  vanilla_by_chocolate = array(c(20, 0, 5, 2, 22, 3, 6, 16), c(2, 2, 2)),
  first_two_departments = datasets::UCBAdmissions[, , 1:2],
  admissions = aperm(datasets::UCBAdmissions, c(2, 1, 3)),
  invented = array(c(5, 2, 9, 14, 1, 3, 8, 20, 11, 6, 7, 9, 2, 0, 3, 5), c(2, 2, 4))
)
one <- function(name) {
  x <- strata[[name]]
  test <- mantelhaen.test(x, correct = FALSE)
  sprintf('  {"name": "%s", "tables": [%s], "oddsRatio": %s, "interval": %s, "chiSquared": %s, "p": %s}', name,
    paste(apply(x, 3, function(t) vector(c(t[1, 1], t[1, 2], t[2, 1], t[2, 2]))), collapse = ", "),
    number(test$estimate), vector(test$conf.int), number(test$statistic), number(test$p.value))
}
matched <- function(seed, sets) {
  set.seed(seed)
  rows <- do.call(rbind, lapply(seq_len(sets), function(i) {
    m <- sample(1:4, 1)
    data.frame(id = i, case = c(1, rep(0, m)), x = c(rbinom(1, 1, .6), rbinom(m, 1, .35)))
  }))
  fit <- clogit(case ~ x + strata(id), rows, method = "exact")
  per <- sapply(split(rows, rows$id), function(r) c(r$x[1], nrow(r) - 1, sum(r$x[-1])))
  sprintf('  {"seed": %d, "sets": [%s], "coefficient": %s}', seed,
    paste(apply(per, 2, vector), collapse = ", "), number(coef(fit)))
}
cat('{\n "tool": "', R.version.string, ", survival ", format(packageVersion("survival")), '",\n "stratified": [\n', sep = "")
cat(paste(sapply(names(strata), one), collapse = ",\n"))
cat('\n ],\n "matched": [\n')
cat(paste(matched(1, 25), matched(2, 80), matched(3, 12), sep = ",\n"))
cat("\n ]\n}\n")
