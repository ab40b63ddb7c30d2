package tickover.wire;

/**
 * What became of a decoder's bytes: {@code in = framed + rejected + pending}, always.
 *
 * @param in bytes fed
 * @param framed bytes of sound frames or lines, delimiters and empty frames included
 * @param rejected bytes that were not taken
 * @param pending bytes of what has not ended yet
 */
public record ByteTally(long in, long framed, long rejected, long pending) {
    public ByteTally {
        if (!(in == framed + rejected + pending)) {
            throw new IllegalArgumentException(
                    "in="
                            + in
                            + ", need framed + rejected + pending = "
                            + framed
                            + " + "
                            + rejected
                            + " + "
                            + pending);
        }
    }
}
