package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What can limit a capture: a closed list, whose words stand in visit folders and answers. */
public enum QualityProblem {
    /** The sensor was driven to the end of its range. */
    CLIPPED(true, "a larger range or a quieter spot near by keeps it off the sensor's limit"),
    /** The probe was off the part. */
    LOST_CONTACT(true, "the probe has to stay pressed on throughout"),
    /** Something hit the probe, its lead or the engine. */
    KNOCK(true, "nothing may touch the probe or its lead"),
    /** The probe was turned to another angle. */
    TILT(true, "the probe has to keep its angle"),
    /** The probe was held differently from some moment on. */
    MOUNT_CHANGE(false, "the grip has to stay the same throughout"),
    /** Samples were lost on their way. */
    MISSING_SAMPLES(true, "the probe's lead and port have to hold"),
    /** Crank angle is not known for want of tach pulses. */
    TACH_DROPOUT(true, "the tach has to see its mark at every turn"),
    /** What is heard above the mount's band is not to be taken at face value. */
    BAND_LIMIT(false, ""),
    /** Sampled too slowly for early bearing damage. */
    NARROW_BAND(false, ""),
    /** Much shorter than an average wants. */
    SHORT(false, "it has to last at least 8 s"),
    /** Unlike the other touches of the same point. */
    ODD_TOUCH(false, "one more touch tells which of them is right"),
    /** A signal that does not move. */
    FLAT(false, "the probe and its lead have to be checked first"),
    /** Sampled too slowly for anything. */
    TOO_SLOW(false, "it has to be sampled faster"),
    /** The crank turned too few times. */
    TOO_FEW_TURNS(false, "it has to last longer"),
    /** Too little is left once the bad stretches are out. */
    TOO_LITTLE_LEFT(false, "too little of it can be used"),
    /** Engine speed could not be found. */
    NO_SPEED(false, "a tach or OBD reading gives the speed"),
    /** The vehicle has no pulleys described. */
    NO_DRIVE(false, ""),
    /** Something that only its sentence tells, out of an older log. */
    OTHER(false, "");

    private static final List<QualityProblem> RECORDED =
            List.of(
                    CLIPPED,
                    LOST_CONTACT,
                    KNOCK,
                    TILT,
                    MOUNT_CHANGE,
                    MISSING_SAMPLES,
                    TACH_DROPOUT);

    private final boolean rulesOut;
    private final String repeatBecause;

    QualityProblem(boolean rulesOut, String repeatBecause) {
        this.rulesOut = rulesOut;
        this.repeatBecause = repeatBecause;
    }

    /**
     * Returns the word for it in visit folders and answers.
     *
     * @return such as {@code lost-contact}
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Finds a problem by its word.
     *
     * @param word such as {@code lost-contact}
     * @return empty if there is none
     */
    public static Optional<QualityProblem> ofWord(String word) {
        return Arrays.stream(values()).filter(p -> p.word().equals(word)).findFirst();
    }

    /**
     * Returns the problems that whoever records can know of and write down in a visit folder; the
     * others are found out by the analysis.
     *
     * @return in the order of this list
     */
    public static List<QualityProblem> recorded() {
        return RECORDED;
    }

    /**
     * Returns whether nothing is concluded from the time ranges in which it happened.
     *
     * @return false if it is only reported
     */
    public boolean rulesOut() {
        return rulesOut;
    }

    /**
     * Returns what a repeated capture has to be like.
     *
     * @return half a sentence; empty where repeating in the same way gains nothing
     */
    public String repeatBecause() {
        return repeatBecause;
    }
}
