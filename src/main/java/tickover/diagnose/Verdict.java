package tickover.diagnose;

import java.util.Locale;

/** What a finding comes to. */
public enum Verdict {
    /** One source stands out. */
    COMPONENT,
    /** Nothing here is out of the ordinary. */
    NONE,
    /** The evidence does not decide. */
    UNCLEAR;

    /**
     * Returns the word for it in answers.
     *
     * @return lower case
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
