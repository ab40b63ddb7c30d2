package tickover.sim;

/** A device at the other end of a line. Time is handed in, true seconds; it never goes back. */
public interface SimulatedDevice {
    /**
     * Takes bytes from the host.
     *
     * @param bytes what came
     * @param atS when, s
     */
    void hear(byte[] bytes, double atS);

    /**
     * Hands over what the device has sent since the last call.
     *
     * @param nowS until when, s
     * @return bytes, perhaps none
     */
    byte[] sentBy(double nowS);

    /**
     * Takes the power away and gives it back.
     *
     * @param atS when, s
     */
    void powerCycle(double atS);
}
