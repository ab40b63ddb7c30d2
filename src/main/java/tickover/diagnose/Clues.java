package tickover.diagnose;

/** One number for each {@link Clue}: what a visit says of a suspect, or what each clue weighs. */
final class Clues {
    static final int COUNT = Clue.values().length;

    private final double[] values;

    Clues() {
        this(new double[COUNT]);
    }

    private Clues(double[] values) {
        this.values = values;
    }

    /** Takes numbers in the order of {@link Clue}. */
    static Clues ofArray(double[] values) {
        if (values.length != COUNT) {
            throw new IllegalArgumentException(
                    "values.length=" + values.length + ", need " + COUNT);
        }
        return new Clues(values.clone());
    }

    double get(Clue clue) {
        return values[index(clue)];
    }

    Clues set(Clue clue, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(clue + "=" + value + ", need a finite number");
        }
        values[index(clue)] = value;
        return this;
    }

    double dot(Clues other) {
        double sum = 0;
        for (int i = 0; i < COUNT; i++) {
            sum += values[i] * other.values[i];
        }
        return sum;
    }

    double[] toArray() {
        return values.clone();
    }

    // The array never leaves this class, so the order of the enum stays a private matter.
    @SuppressWarnings("EnumOrdinal")
    private static int index(Clue clue) {
        return clue.ordinal();
    }
}
