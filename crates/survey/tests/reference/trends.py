"""Intervals of the trends in tests/all/next_survey.rs, by scipy. Run: python3 trends.py"""
import scipy
from scipy.stats import t, ttest_ind, ttest_rel

then, now = [18.0, 22.0, 25.0, 19.5], [17.0, 20.5, 25.5, 16.5]
paired = ttest_rel(now, then)
interval = paired.confidence_interval(0.95)
print("scipy", scipy.__version__)
print("paired: low %.4f high %.4f half %.5f" % (interval.low, interval.high, (interval.high - interval.low) / 2))
unpaired = ttest_ind([28.0, 30.0, 29.0], then, equal_var=False)
interval = unpaired.confidence_interval(0.95)
print("unpaired: df %.3f low %.4f high %.4f" % (unpaired.df, interval.low, interval.high))
print("t(0.975, 4) = %.3f" % t.ppf(0.975, 4))
