# Values of tests/statistics/two-way.test.ts. R 4.2.2, lm with dummy columns; least-squares means as averages of predictions over all blocks.
options(digits = 15)
cat("npk", npk$block, "|", npk$yield, "|", as.integer(npk$N) - 1, "|", with(npk, 4 * as.integer(N) + 2 * as.integer(P) + as.integer(K) - 7), "\n")
print(anova(lm(yield ~ block + N, npk)))
show <- function(d) {
  d$a <- factor(d$a); d$b <- factor(d$b)
  fit <- lm(y ~ b + a, d)
  L <- t(sapply(levels(d$a), function(one) colMeans(model.matrix(~ b + a, expand.grid(b = factor(levels(d$b)), a = factor(one, levels = levels(d$a)))))))
  V <- L %*% (vcov(fit) / summary(fit)$sigma^2) %*% t(L)
  cat("means", format(drop(L %*% coef(fit)), digits = 15), "\n")
  cat("rss", deviance(fit), "df", df.residual(fit), "ss", anova(fit)["a", "Sum Sq"], "\n")
  print(V, digits = 15)
}
show(data.frame(a = npk$N, b = npk$block, y = npk$yield))
# Unequal numbers, an empty cell for each block.
show(data.frame(
  a = c(0, 0, 1, 2, 1, 1, 2, 3, 0, 3, 3, 2, 0, 1),
  b = c(0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3),
  y = c(20.1, 20.4, 20.9, 21.6, 19.8, 20.2, 20.7, 21.1, 18.9, 20.6, 20.2, 20.4, 21.3, 22.2)))
