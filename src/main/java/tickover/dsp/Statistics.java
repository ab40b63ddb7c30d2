package tickover.dsp;

/**
 * Figures that describe a set of numbers, in the unit of the numbers unless said otherwise.
 *
 * <p>None of them changes its argument. All refuse an empty array.
 */
public final class Statistics {
    /** Turns a median absolute deviation into a standard deviation, for Gaussian values. */
    public static final double MAD_TO_SIGMA = 1.4826022185056018;

    /** So few values are sorted by insertion. */
    private static final int SORT_FROM = 8;

    private Statistics() {}

    /**
     * The arithmetic mean.
     *
     * @param values at least one
     * @return the mean
     */
    public static double mean(double[] values) {
        requireSome(values);
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        return sum / values.length;
    }

    /**
     * The mean of the squares.
     *
     * @param values at least one
     * @return mean square, unit of the values squared
     */
    public static double meanSquare(double[] values) {
        requireSome(values);
        double sum = 0;
        for (double v : values) {
            sum += v * v;
        }
        return sum / values.length;
    }

    /**
     * The root of the mean of the squares; the mean is not taken off first.
     *
     * @param values at least one
     * @return rms
     */
    public static double rms(double[] values) {
        return Math.sqrt(meanSquare(values));
    }

    /**
     * The mean square distance from the mean, divided by the count (not by the count less one).
     *
     * @param values at least one
     * @return variance, unit of the values squared
     */
    public static double variance(double[] values) {
        double mean = mean(values);
        double sum = 0;
        for (double v : values) {
            sum += (v - mean) * (v - mean);
        }
        return sum / values.length;
    }

    /**
     * The fourth moment about the mean over the squared variance: 3 for Gaussian values, 1.5 for a
     * sine. No 3 is taken off.
     *
     * @param values at least one, not all equal
     * @return kurtosis, &gt;= 1
     * @throws IllegalArgumentException if all values are equal, for it is then undefined
     */
    public static double kurtosis(double[] values) {
        double mean = mean(values);
        double second = 0;
        double fourth = 0;
        for (double v : values) {
            double square = (v - mean) * (v - mean);
            second += square;
            fourth += square * square;
        }
        if (!(second > 0)) {
            throw new IllegalArgumentException("all values are equal, need a spread for kurtosis");
        }
        return fourth * values.length / (second * second);
    }

    /**
     * Spectral kurtosis of one frequency: {@code <|X|^4> / <|X|²>² - 2} over frames. 0 for Gaussian
     * noise, -1 for a steady tone.
     *
     * @param re real parts of that bin, one per frame, at least one
     * @param im imaginary parts, same length
     * @return spectral kurtosis, &gt;= -1
     */
    public static double spectralKurtosis(double[] re, double[] im) {
        requireSome(re);
        if (im.length != re.length) {
            throw new IllegalArgumentException("im.length=" + im.length + ", need " + re.length);
        }
        double second = 0;
        double fourth = 0;
        for (int i = 0; i < re.length; i++) {
            double power = re[i] * re[i] + im[i] * im[i];
            second += power;
            fourth += power * power;
        }
        if (!(second > 0)) {
            throw new IllegalArgumentException("all bins are zero, need power for kurtosis");
        }
        return fourth * re.length / (second * second) - 2;
    }

    /**
     * The largest magnitude over the rms.
     *
     * @param values at least one, not all zero
     * @return crest factor, &gt;= 1
     */
    public static double crest(double[] values) {
        double rms = rms(values);
        if (!(rms > 0)) {
            throw new IllegalArgumentException("all values are zero, need a signal for a crest");
        }
        double peak = 0;
        for (double v : values) {
            peak = Math.max(peak, Math.abs(v));
        }
        return peak / rms;
    }

    /**
     * The value below which half of the values lie.
     *
     * @param values at least one
     * @return the median, for an even count the mean of the middle two
     */
    public static double median(double[] values) {
        return quantile(values, 0.5);
    }

    /**
     * The value below which a share of the values lies, straight between order statistics: the
     * smallest at 0, the largest at 1.
     *
     * @param values at least one
     * @param share 0 to 1
     * @return the quantile
     */
    public static double quantile(double[] values, double share) {
        requireSome(values);
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("share=" + share + ", need 0 to 1");
        }
        double[] scratch = values.clone();
        double place = share * (scratch.length - 1);
        int below = (int) place;
        double lower = nth(scratch, scratch.length, below);
        if (below + 1 == scratch.length) {
            return lower;
        }
        double upper = scratch[below + 1];
        for (int i = below + 2; i < scratch.length; i++) {
            upper = Math.min(upper, scratch[i]);
        }
        return lower + (place - below) * (upper - lower);
    }

    /**
     * The value that sorting would bring to a place. Cost: O(count) on average; allocates nothing.
     *
     * @param scratch values without NaN; reordered so that none before the place is larger and none
     *     after it smaller
     * @param count how many, from the first on
     * @param place 0 for the smallest to {@code count - 1} for the largest
     * @return the value
     */
    public static double nth(double[] scratch, int count, int place) {
        if (!(place >= 0 && place < count && count <= scratch.length)) {
            throw new IllegalArgumentException(
                    "place=" + place + ", count=" + count + ", need place from 0 to below count");
        }
        int low = 0;
        int high = count - 1;
        while (high - low > SORT_FROM) {
            double pivot = middle(scratch[low], scratch[(low + high) >>> 1], scratch[high]);
            int i = low;
            int j = high;
            while (i <= j) {
                while (scratch[i] < pivot) {
                    i++;
                }
                while (scratch[j] > pivot) {
                    j--;
                }
                if (i <= j) {
                    double swapped = scratch[i];
                    scratch[i++] = scratch[j];
                    scratch[j--] = swapped;
                }
            }
            if (place <= j) {
                high = j;
            } else if (place >= i) {
                low = i;
            } else {
                return scratch[place];
            }
        }
        for (int i = low + 1; i <= high; i++) {
            double value = scratch[i];
            int at = i;
            while (at > low && scratch[at - 1] > value) {
                scratch[at] = scratch[at - 1];
                at--;
            }
            scratch[at] = value;
        }
        return scratch[place];
    }

    private static double middle(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }

    /**
     * The median distance from the median, not scaled: times {@link #MAD_TO_SIGMA} it estimates a
     * standard deviation that a few wild values cannot spoil.
     *
     * @param values at least one
     * @return median absolute deviation
     */
    public static double mad(double[] values) {
        double median = median(values);
        double[] distances = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            distances[i] = Math.abs(values[i] - median);
        }
        return median(distances);
    }

    private static void requireSome(double[] values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("values is empty, need at least one");
        }
    }
}
