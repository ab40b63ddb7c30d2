package tickover.wire;

/** How the talk with a speed adapter stands, for a person to read. */
public enum ObdState {
    /** Nothing was asked yet. */
    IDLE("The adapter has not been asked yet."),
    /** Waking the adapter. */
    STARTING("The adapter is being set up."),
    /** Nothing answers, or nothing any more. */
    SILENT(
            "Nothing answers at this port: check that the adapter is plugged in and is the right"
                    + " port."),
    /** The adapter looks for the bus. */
    SEARCHING("The adapter is looking for the car."),
    /** No control unit answers. */
    NO_CAR("The adapter answers, but the car does not: switch the ignition on."),
    /** There is no speed to be had. */
    NO_SPEED("The car answers, but gives no engine speed: use a tach."),
    /** Speed is zero. */
    ENGINE_OFF("The car answers with 0 rpm: start the engine."),
    /** Speed comes. */
    READING("Engine speed is coming in."),
    /** What comes makes no sense. */
    GARBLED("The adapter's answers are garbled: check its plug, the cable and the line rate.");

    private final String sentence;

    ObdState(String sentence) {
        this.sentence = sentence;
    }

    /**
     * Returns how it stands in one sentence, with what to do.
     *
     * @return the sentence
     */
    public String sentence() {
        return sentence;
    }
}
