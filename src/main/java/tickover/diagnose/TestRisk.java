package tickover.diagnose;

/**
 * What a test risks, for people and for the engine. How many minutes of work a risk is worth is
 * judgement, no measurement.
 */
public enum TestRisk {
    /** A probe held beside a running engine, as for any capture. */
    LOW("low risk", 0),
    /** Something is loaded or unplugged for a moment, or taken off at standstill. */
    SOME("some risk", 5),
    /** The engine runs without what it needs. */
    HIGH("high risk", 20);

    private final String word;
    private final double minutes;

    TestRisk(String word, double minutes) {
        this.word = word;
        this.minutes = minutes;
    }

    /**
     * Returns the risk of a kind of test.
     *
     * @param kind as in {@link NextTest#kind}
     * @return the risk; that of a capture for what is not known
     */
    public static TestRisk of(String kind) {
        return switch (kind) {
            case "belt-off" -> HIGH;
            case "injector-off", "load-steering", "bench" -> SOME;
            default -> LOW;
        };
    }

    /**
     * Returns how it is called.
     *
     * @return two words
     */
    public String word() {
        return word;
    }

    /** Minutes of work that count as much as the risk. */
    double minutes() {
        return minutes;
    }
}
