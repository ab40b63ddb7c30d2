package tickover.store;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
import tickover.align.SpeedSource;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.QualityNote;

/** One capture of a visit: what it is of, and where its samples and speed records are. */
public final class VisitCapture {
    private final CaptureLabel label;
    private final Path wav;
    private final double scaleMps2;
    private final SpeedSource.Kind speedKind;
    private final Path speedFile;
    private final Tach tach;
    private final List<QualityNote> quality;

    /** Why the samples are gone; null if they are there. */
    private final String removed;

    /**
     * What is known of a tach's mark.
     *
     * @param pulley the name of the pulley that carries it
     * @param pulsesPerTurn marks on it
     * @param turnsPerCrankTurn its turns per crank turn
     */
    record Tach(String pulley, int pulsesPerTurn, double turnsPerCrankTurn) {}

    VisitCapture(
            CaptureLabel label,
            Path wav,
            double scaleMps2,
            SpeedSource.Kind speedKind,
            Path speedFile,
            Tach tach,
            List<QualityNote> quality) {
        this(label, wav, scaleMps2, speedKind, speedFile, tach, quality, null);
    }

    private VisitCapture(
            CaptureLabel label,
            Path wav,
            double scaleMps2,
            SpeedSource.Kind speedKind,
            Path speedFile,
            Tach tach,
            List<QualityNote> quality,
            String removed) {
        this.label = label;
        this.wav = wav;
        this.scaleMps2 = scaleMps2;
        this.speedKind = speedKind;
        this.speedFile = speedFile;
        this.tach = tach;
        this.quality = List.copyOf(quality);
        this.removed = removed;
    }

    /** The same capture, whose samples are known to be gone. */
    VisitCapture removed(String why) {
        return new VisitCapture(label, wav, scaleMps2, speedKind, speedFile, tach, quality, why);
    }

    /**
     * Tells whether its samples were removed by rule.
     *
     * @return when and by which rule, as a sentence without its full stop; empty if they are there
     */
    public Optional<String> removed() {
        return Optional.ofNullable(removed);
    }

    /**
     * Reads samples and speed from disk, every time anew.
     *
     * @return m/s² and what is known of engine speed
     * @throws VisitFolderException if a file changed for the worse since the visit was read
     * @throws StoreException if the samples were removed by rule, see {@link #removed()}
     */
    public CaptureSignal load() {
        if (removed != null) {
            throw new StoreException(StoreException.Reason.REMOVED, removed);
        }
        WavFile file = WavFile.read(wav, scaleMps2);
        return new CaptureSignal(file.sampleRateHz(), file.valuesMps2(), speed());
    }

    /** Reads everything once for faults alone. */
    void check() {
        WavFile.check(wav);
        speed();
    }

    private SpeedSource speed() {
        return switch (speedKind) {
            case TACH -> SpeedCsv.tach(speedFile, tach.pulsesPerTurn(), tach.turnsPerCrankTurn());
            case OBD -> SpeedCsv.speeds(speedFile, true);
            case KNOWN -> SpeedCsv.speeds(speedFile, false);
            case NONE -> new NoSpeed();
        };
    }

    /**
     * Returns what it is of.
     *
     * @return the label
     */
    public CaptureLabel label() {
        return label;
    }

    /**
     * Returns the name of its WAV file.
     *
     * @return without any folder
     */
    public String file() {
        return wav.getFileName().toString();
    }

    /**
     * Returns the scale of the WAV file.
     *
     * @return m/s² per full scale of whole numbers, or per unit of floats
     */
    public double scaleMps2() {
        return scaleMps2;
    }

    /**
     * Returns what kind of speed record it has.
     *
     * @return the kind
     */
    public SpeedSource.Kind speedKind() {
        return speedKind;
    }

    /**
     * Returns the name of its speed record.
     *
     * @return without any folder; empty if it has none
     */
    public Optional<String> speedFile() {
        return Optional.ofNullable(speedFile).map(f -> f.getFileName().toString());
    }

    /**
     * Returns how many pulses a tach gives.
     *
     * @return per turn of the marked pulley; 1 unless said otherwise
     */
    public int pulsesPerTurn() {
        return tach.pulsesPerTurn();
    }

    /**
     * Returns which pulley carries the tach's mark.
     *
     * @return its name; {@code crank} unless said otherwise
     */
    public String tachPulley() {
        return tach.pulley();
    }

    /**
     * Returns what whoever recorded it noted of the signal, such as samples lost on the line.
     *
     * @return in the order of the file; a sentence may be empty
     */
    public List<QualityNote> quality() {
        return quality;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof VisitCapture c
                && label.equals(c.label)
                && file().equals(c.file())
                && Double.compare(scaleMps2, c.scaleMps2) == 0
                && speedKind == c.speedKind
                && speedFile().equals(c.speedFile())
                && tach.equals(c.tach)
                && quality.equals(c.quality);
    }

    @Override
    public int hashCode() {
        return Objects.hash(label, file(), scaleMps2, speedKind, speedFile(), tach, quality);
    }
}
