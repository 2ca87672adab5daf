# The job of trial_job.cpp in R: Rscript trials.R TRIALS
# Prints seconds, mean, standard deviation and the ends of the 95 % interval of the loss.
n <- as.integer(commandArgs(trailingOnly = TRUE)[1])
start <- proc.time()[["elapsed"]]
set.seed(1)
rectangular <- function(half_width) runif(n, -half_width, half_width)
gain <- rnorm(n, 0, 0.003)
sun <- rectangular(0.05)
gamma <- -0.0038 + rectangular(0.0005)
cell <- 3 + rectangular(1)
q <- function(watts, w_per_m2, back_c) {
  suns <- w_per_m2 * (1 + sun) / 1000
  cell_c <- back_c + rectangular(1) + cell * suns
  added <- rnorm(n, 0, 0.004) + rnorm(n, 0, 0.003) + rnorm(n, 0, 0.0015)
  log(watts * (1 + gain)) - log(suns) - log(1 + gamma * (cell_c - 25)) + added
}
before <- q(80.7, 898, 45.7)
loss <- 1 - exp(q(72.4, 858, 41.7) - before)
ordered <- sort(loss, method = "radix")
figures <- c(mean(loss), sd(loss), ordered[c(ceiling(0.025 * n), ceiling(0.975 * n))])
seconds <- proc.time()[["elapsed"]] - start
cat(sprintf("%.6f", c(seconds, figures)), "\n")
