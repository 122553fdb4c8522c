# Cases for instruments.json. R 4.2.2: the ends are the references at which predict(interval = "prediction") of lm holds the reading, found by uniroot.
options(digits = 15)
one <- function(readings, references, reading, level = 0.95) {
  fit <- lm(readings ~ references)
  estimate <- (reading - coef(fit)[[1]]) / coef(fit)[[2]]
  edge <- function(side) {
    off <- function(x) predict(fit, data.frame(references = x), interval = "prediction", level = level)[, side] - reading
    span <- diff(range(references))
    uniroot(off, c(estimate - 4 * span, estimate + 4 * span), tol = 1e-14)$root
  }
  ends <- sort(c(edge("lwr"), edge("upr")))
  cat(format(c(estimate, ends), digits = 15), "\n")
}
# A refractometer at known sugar solutions, invented.
readings <- c(0.02, 4.97, 5.06, 9.91, 10.08, 14.88); references <- c(0, 5, 5, 10, 10, 15)
one(readings, references, 9.4); one(readings, references, 14.8); one(readings, references, 9.4, 0.9); one(readings, references, 0.05)
# An instrument that falls as the true value rises.
one(c(9.8, 8.1, 6.05, 3.9, 2.2), c(1, 2, 3, 4, 5), 5)
