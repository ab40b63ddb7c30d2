package tickover.console.model;

/** The console's screens, in the order of the job. */
public enum Screen {
    /** Pick or enter the vehicle. */
    VEHICLE(1, "Vehicle"),
    /** What is on its belts. */
    DRIVE(2, "Drive"),
    /** The walk round the engine, probe in hand. */
    ROUND(3, "Round"),
    /** What the probe feels now. */
    LIVE(4, "Live"),
    /** What the captures say. */
    FINDINGS(5, "Findings"),
    /** How every vehicle and part stands against its past. */
    HISTORY(6, "History"),
    /** One visit against an earlier one. */
    COMPARE(7, "Before/after"),
    /** One removed part, turned alone. */
    BENCH(8, "Bench"),
    /** One part's sound alone. */
    LISTEN(9, "Listen");

    private final int number;
    private final String title;

    Screen(int number, String title) {
        this.number = number;
        this.title = title;
    }

    /**
     * Returns its number, which is also the key that brings it.
     *
     * @return counted from 1
     */
    public int number() {
        return number;
    }

    /**
     * Returns what it is called.
     *
     * @return one word
     */
    public String title() {
        return title;
    }
}
