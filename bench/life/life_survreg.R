# The same samples fitted by R's survreg.   usage: Rscript life_survreg.R LIVES.csv     prints one JSON object
suppressPackageStartupMessages(library(survival))
samples <- split(read.csv(commandArgs(TRUE)[1]), ~sample)
shape_of <- function(one) 1 / survreg(Surv(age, failed) ~ 1, one, dist = "weibull")$scale
took <- min(replicate(3, system.time(shapes <<- sapply(samples, shape_of))["user.self"]))
cat(sprintf('{"survival":"%s","fits":%d,"seconds":%.6f,"mean_shape":%.12g}\n', packageVersion("survival"), length(samples),
            took, mean(shapes)))
