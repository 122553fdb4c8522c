# R 4.2.2. Run: Rscript power.R
power.t.test(n = 20, delta = 1, sd = 1)       # power = 0.8689528
power.t.test(power = .90, delta = 1, sd = 1)  # n = 22.02110
