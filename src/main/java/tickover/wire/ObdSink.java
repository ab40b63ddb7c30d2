package tickover.wire;

/** Hears what comes of the talk with a speed adapter. */
public interface ObdSink {
    /**
     * These bytes have to be sent to the adapter now.
     *
     * @param bytes a command with its carriage return; the receiver's own
     */
    void send(byte[] bytes);

    /**
     * A value came.
     *
     * @param reading the value
     */
    void reading(ObdReading reading);

    /**
     * The vehicle said which one it is.
     *
     * @param vin vehicle identification number, 17 characters
     */
    void vin(String vin);

    /**
     * Things stand differently now.
     *
     * @param state how
     */
    void state(ObdState state);

    /**
     * Several control units answer; from now on one and the same is listened to.
     *
     * @param chosen its identity; empty if the adapter does not show who answers, and then the
     *     first answer counts
     * @param answering how many answer
     */
    void controlUnit(String chosen, int answering);
}
