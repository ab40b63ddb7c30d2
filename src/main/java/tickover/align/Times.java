package tickover.align;

/** Checks that every series of times here has to pass. */
final class Times {
    private Times() {}

    static void requireNotDecreasing(double[] timesS) {
        for (int i = 0; i < timesS.length; i++) {
            if (!Double.isFinite(timesS[i]) || (i > 0 && timesS[i] < timesS[i - 1])) {
                throw new IllegalArgumentException(
                        "timesS["
                                + i
                                + "]="
                                + timesS[i]
                                + ", need finite times that never go back");
            }
        }
    }
}
