package tickover.diagnose;

import java.util.Locale;

/**
 * Up to which frequency a mount carries what the part does.
 *
 * <p>Published limits differ by a factor of two or more: pressed on by hand 1 or 2 kHz, magnet 2 to
 * 5 kHz, glue 6 or 10 kHz, screwed on 7 or 10 kHz [ProbeMounts]. The lower value of each is taken
 * as the limit and both are said. What lies beyond is labelled and not weighed down: knocks ring
 * above the limit too, weaker and with an unknown gain, and their rhythm is right all the same.
 */
final class MountBand {
    private MountBand() {}

    /** The lower of the published limits, Hz. */
    static double limitHz(Mount mount) {
        return switch (mount) {
            case HAND -> 1000;
            case MAGNET -> 2000;
            case ADHESIVE -> 6000;
            case STUD -> 7000;
        };
    }

    private static double otherLimitHz(Mount mount) {
        return switch (mount) {
            case HAND -> 2000;
            case MAGNET -> 5000;
            case ADHESIVE, STUD -> 10_000;
        };
    }

    /** How the probe was held, as half a sentence. */
    static String held(Mount mount) {
        return switch (mount) {
            case HAND -> "held by hand";
            case MAGNET -> "on a magnet";
            case ADHESIVE -> "glued on";
            case STUD -> "screwed on";
        };
    }

    static String sentence(Mount mount) {
        return String.format(
                Locale.ROOT,
                "With the probe %s, levels above %.0f kHz are not to be taken at face value"
                        + " (sources differ: %.0f to %.0f kHz); rhythms there still count.",
                held(mount),
                limitHz(mount) / 1000,
                limitHz(mount) / 1000,
                otherLimitHz(mount) / 1000);
    }
}
