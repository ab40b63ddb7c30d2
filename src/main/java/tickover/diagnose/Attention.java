package tickover.diagnose;

import java.util.Locale;
import java.util.Objects;
import java.util.OptionalDouble;

/** One reason why a vehicle needs a look. */
public final class Attention {
    private final Kind kind;
    private final String part;
    private final double chance;
    private final Double changeDb;
    private final String sentence;

    /** What kind of reason. */
    public enum Kind {
        /** The last visit names a part, and no repair of it is marked since. */
        FINDING,
        /** A part's level rises, more than chance explains. */
        RISE,
        /** A repair is marked, and nothing was measured since. */
        UNPROVEN,
        /** The last visit does not decide. */
        UNCLEAR,
        /** The last visit was not analysed. */
        NOT_ANALYSED;

        /**
         * Returns the word for it in answers.
         *
         * @return lower case with hyphens
         */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    private Attention(Kind kind, String part, double chance, Double changeDb, String sentence) {
        this.kind = Objects.requireNonNull(kind, "kind");
        this.part = Objects.requireNonNull(part, "part");
        this.chance = chance;
        this.changeDb = changeDb;
        this.sentence = Objects.requireNonNull(sentence, "sentence");
        if (!(chance >= 0 && chance <= 1)) {
            throw new IllegalArgumentException("chance=" + chance + ", need 0..1");
        }
    }

    /**
     * Makes a reason that has no level change.
     *
     * @param kind what kind
     * @param part as {@link PartLevel#part}, or empty for the whole front
     * @param chance that nothing is the matter, as far as this reason goes, 0..1
     * @param sentence the reason in a mechanic's words, a whole sentence
     * @return the reason
     */
    public static Attention of(Kind kind, String part, double chance, String sentence) {
        return new Attention(kind, part, chance, null, sentence);
    }

    /**
     * The same with a change of level.
     *
     * @param value dB
     * @return a copy
     */
    public Attention withChangeDb(double value) {
        return new Attention(kind, part, chance, value, sentence);
    }

    /**
     * Returns what kind of reason it is.
     *
     * @return the kind
     */
    public Kind kind() {
        return kind;
    }

    /**
     * Returns which part it is about.
     *
     * @return as {@link PartLevel#part}, or empty for the whole front
     */
    public String part() {
        return part;
    }

    /**
     * Returns the chance that nothing is the matter, as far as this reason goes.
     *
     * @return 0..1
     */
    public double chance() {
        return chance;
    }

    /**
     * Returns how far the newest level stands above its earlier ones.
     *
     * @return dB; empty if the reason is no change of a level
     */
    public OptionalDouble changeDb() {
        return changeDb == null ? OptionalDouble.empty() : OptionalDouble.of(changeDb);
    }

    /**
     * Returns the reason in words.
     *
     * @return a whole sentence
     */
    public String sentence() {
        return sentence;
    }
}
