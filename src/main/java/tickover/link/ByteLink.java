package tickover.link;

/** A two-way line of bytes to one device. One reading thread, one writing thread. */
public interface ByteLink extends AutoCloseable {
    /**
     * Returns what a person calls the line.
     *
     * @return a port's name
     */
    String name();

    /**
     * Waits a short while (at most 0.3 s) for bytes.
     *
     * @param into where they go
     * @return how many came; 0 if none did
     * @throws LinkException if the device is gone
     */
    int read(byte[] into);

    /**
     * Sends bytes.
     *
     * @param bytes what to send
     * @throws LinkException if the device is gone or does not take them
     */
    void write(byte[] bytes);

    /** Closes the line; a blocked read returns or throws. Closing twice is harmless. */
    @Override
    void close();
}
