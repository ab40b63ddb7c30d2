package tickover.session;

/** Nothing of a part can be heard in a capture. */
public final class NotHeardException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /**
     * Says why.
     *
     * @param why one sentence that says what was looked for and what else can be asked
     */
    public NotHeardException(String why) {
        super(why);
    }
}
