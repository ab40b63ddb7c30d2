package tickover.dsp;

import java.util.Arrays;

/**
 * A symmetric positive definite matrix that is zero beyond a distance from its diagonal, and its
 * solver.
 *
 * <p>Filled by {@link #add}, factored once into L D L' by {@link #factor}, then solved for as many
 * right-hand sides as wanted. No pivoting: none is needed for a positive definite matrix. <br>
 * Cost: {@code size * reach²} multiplications to factor, {@code 2 size * reach} to solve. Memory:
 * {@code size * (reach + 1)} numbers. Thread: one per instance.
 */
public final class SymmetricBand {
    /** A pivot that has lost this much of its diagonal is round-off and nothing else. */
    private static final double LEAST_PIVOT_RATIO = 1e-14;

    private final int size;
    private final int reach;
    private final int width;
    private final double[] rows;
    private boolean factored;

    /**
     * Makes a matrix of zeros.
     *
     * @param size rows, &gt;= 1
     * @param reach largest distance from the diagonal of an element that is not zero, &gt;= 0
     */
    public SymmetricBand(int size, int reach) {
        if (!(size >= 1 && reach >= 0)) {
            throw new IllegalArgumentException(
                    "size=" + size + ", reach=" + reach + ", need size >= 1 and reach >= 0");
        }
        if (!((long) size * (reach + 1) <= Integer.MAX_VALUE - 8)) {
            throw new IllegalArgumentException(
                    "size=" + size + ", reach=" + reach + ", need fewer than 2^31 elements");
        }
        this.size = size;
        this.reach = reach;
        this.width = reach + 1;
        this.rows = new double[size * width];
    }

    /**
     * Adds to an element, and so to its mirror image across the diagonal.
     *
     * @param row row, from 0
     * @param column column, from 0, at most {@code reach} away from the row
     * @param value what to add
     */
    public void add(int row, int column, double value) {
        int lower = Math.max(row, column);
        int left = Math.min(row, column);
        if (!(left >= 0 && lower < size && lower - left <= reach)) {
            throw new IllegalArgumentException(
                    "row=" + row + ", column=" + column + ", need a place within the band");
        }
        rows[lower * width + left - lower + reach] += value;
    }

    /**
     * Replaces the matrix by its factors.
     *
     * @return false if it is not positive definite to round-off; it is then of no further use
     */
    public boolean factor() {
        double[] scaled = new double[width];
        for (int i = 0; i < size; i++) {
            int first = Math.max(0, i - reach);
            int row = i * width + reach - i;
            double diagonal = rows[row + i];
            double pivot = diagonal;
            for (int j = first; j < i; j++) {
                int other = j * width + reach - j;
                double sum = rows[row + j];
                for (int k = Math.max(first, j - reach); k < j; k++) {
                    sum -= rows[row + k] * rows[other + k];
                }
                rows[row + j] = sum;
            }
            for (int j = first; j < i; j++) {
                scaled[j - first] = rows[row + j] / rows[j * width + reach];
                pivot -= scaled[j - first] * rows[row + j];
            }
            System.arraycopy(scaled, 0, rows, row + first, i - first);
            if (!(pivot > LEAST_PIVOT_RATIO * diagonal)) {
                return false;
            }
            rows[row + i] = pivot;
        }
        factored = true;
        return true;
    }

    /**
     * Solves for one right-hand side.
     *
     * @param right right-hand side, {@code size} values, read-only
     * @return the solution, a new array
     */
    public double[] solve(double[] right) {
        if (!factored) {
            throw new IllegalStateException("not factored, need factor() first");
        }
        double[] x = Arrays.copyOf(right, size);
        for (int i = 0; i < size; i++) {
            int row = i * width + reach - i;
            double sum = x[i];
            for (int j = Math.max(0, i - reach); j < i; j++) {
                sum -= rows[row + j] * x[j];
            }
            x[i] = sum;
        }
        for (int i = 0; i < size; i++) {
            x[i] /= rows[i * width + reach];
        }
        for (int i = size - 1; i >= 0; i--) {
            int row = i * width + reach - i;
            for (int j = Math.max(0, i - reach); j < i; j++) {
                x[j] -= rows[row + j] * x[i];
            }
        }
        return x;
    }
}
