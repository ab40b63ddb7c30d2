package tickover.diagnose;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Puts chances right for having looked at many things at once, by Holm's method: whatever the
 * dependence between them, calling what has an adjusted chance of at most a makes any false call at
 * all with a chance of at most a. Textbook method.
 */
public final class Holm {
    private Holm() {}

    /**
     * Adjusts chances.
     *
     * @param chances each 0..1
     * @return adjusted, in the same places, each 0..1
     */
    public static double[] adjust(double[] chances) {
        int n = chances.length;
        int[] byChance =
                IntStream.range(0, n)
                        .boxed()
                        .sorted(Comparator.comparingDouble((Integer i) -> chances[i]))
                        .mapToInt(Integer::intValue)
                        .toArray();
        double[] adjusted = new double[n];
        Arrays.fill(adjusted, 1);
        double last = 0;
        for (int rank = 0; rank < n; rank++) {
            last = Math.max(last, Math.min(1, (n - rank) * chances[byChance[rank]]));
            adjusted[byChance[rank]] = last;
        }
        return adjusted;
    }
}
