# R 4.2.2. Run: Rscript power.R
power.t.test(n = 20, delta = 1, sd = 1)       # power = 0.8689528
power.t.test(power = .90, delta = 1, sd = 1)  # n = 22.02110
# Several settings, two of them d apart and the rest midway: the variance of their means is d^2 / 2 / (k - 1).
shots <- function(k, d, ...) power.anova.test(groups = k, between.var = d^2 / 2 / (k - 1), within.var = 1, ...)$n
for (k in c(3, 4, 8)) for (d in c(0.5, 1, 2.5)) cat(k, d, shots(k, d, power = .8), "\n")
cat(shots(5, 1.5, power = .95, sig.level = .01), "\n")
