package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.beans.value.ObservableValue;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import tickover.diagnose.Mount;
import tickover.drive.BearingGeometry;
import tickover.drive.BearingTable;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.report.Caution;

/** What is on the bench, as far as it was said: part, bearing, ring, speed and mount. */
public final class BenchSetup {
    /** Stands in for a bearing of which nothing is known, where single spots are not asked for. */
    private static final BearingGeometry STAND_IN = BearingTable.typical("6203").get(0);

    /** Where the speed comes from. */
    public enum SpeedFrom {
        /** A mark on the turning ring, seen by the probe's tach. */
        TACH("by the tach"),
        /** Typed, within two per cent. */
        GIVEN("as given"),
        /** Looked for in the record. */
        FOUND("found in the sound");

        private final String words;

        SpeedFrom(String words) {
            this.words = words;
        }

        /**
         * Returns what it is called.
         *
         * @return a few words
         */
        public String words() {
            return words;
        }
    }

    /** All that was said of what is on the bench; the bearing may be unknown. */
    record Said(
            String part,
            BearingGeometry geometry,
            boolean internalsKnown,
            List<String> notes,
            Ring ring,
            SpeedFrom speed,
            double rpm) {
        /** Whether it would be judged alike. */
        boolean like(Said other) {
            return other != null
                    && part.equals(other.part)
                    && geometry.equals(other.geometry)
                    && internalsKnown == other.internalsKnown
                    && ring == other.ring
                    && speed == other.speed
                    && rpm == other.rpm;
        }
    }

    private Runnable changed = () -> {};
    private boolean picking;
    private final ObservableList<BenchPart> parts =
            FXCollections.observableArrayList(BenchPart.OTHER);
    private final ObjectProperty<BenchPart> part = new SimpleObjectProperty<>(BenchPart.OTHER);
    private final StringProperty name = new SimpleStringProperty("");
    private final StringProperty bearing = new SimpleStringProperty("");
    private final ObjectProperty<Ring> ring = new SimpleObjectProperty<>(Ring.OUTER);
    private final ObjectProperty<SpeedFrom> speed = new SimpleObjectProperty<>(SpeedFrom.TACH);
    private final StringProperty rpm = new SimpleStringProperty("");
    private final ObjectProperty<Mount> mount = new SimpleObjectProperty<>(Mount.MAGNET);

    BenchSetup() {
        part.addListener((o, before, now) -> picked(now));
        for (ObservableValue<?> said : List.of(ring, speed, bearing, rpm, name)) {
            said.addListener((o, before, now) -> tell());
        }
    }

    /** Says who wants to know when something else was said. */
    void onChange(Runnable listener) {
        changed = listener;
    }

    /**
     * Returns what can be put on the bench.
     *
     * @return observable: the chosen vehicle's parts that have a bearing, and anything else
     */
    public ObservableList<BenchPart> parts() {
        return parts;
    }

    /**
     * Returns what was picked of that.
     *
     * @return observable, never null
     */
    public ObjectProperty<BenchPart> part() {
        return part;
    }

    /**
     * Returns what the part is called.
     *
     * @return free text
     */
    public StringProperty name() {
        return name;
    }

    /**
     * Returns its bearing in one line, as {@link BearingWords} reads it.
     *
     * @return as typed
     */
    public StringProperty bearing() {
        return bearing;
    }

    /**
     * Returns the ring that turns.
     *
     * @return observable, never null
     */
    public ObjectProperty<Ring> ring() {
        return ring;
    }

    /**
     * Returns where the speed comes from.
     *
     * @return observable, never null
     */
    public ObjectProperty<SpeedFrom> speed() {
        return speed;
    }

    /**
     * Returns the speed of the turning ring where it is given.
     *
     * @return rpm, as typed
     */
    public StringProperty rpm() {
        return rpm;
    }

    /**
     * Returns how the probe is held.
     *
     * @return observable, never null
     */
    public ObjectProperty<Mount> mount() {
        return mount;
    }

    /** Offers parts; what was said stays if they are the same as before. */
    void offer(List<BenchPart> now) {
        if (!now.equals(parts)) {
            parts.setAll(now);
            part.set(now.get(0));
        }
    }

    private void picked(BenchPart now) {
        if (now == null) {
            return;
        }
        picking = true;
        name.set(now.part());
        ring.set(now.turning());
        bearing.set(now.bearing());
        picking = false;
        tell();
    }

    private void tell() {
        if (!picking) {
            changed.run();
        }
    }

    String called() {
        return name.get().isBlank() ? "part" : name.get().strip();
    }

    private List<PulleyBearing> read(List<String> complaints) {
        return BearingWords.read(bearing.get(), ring.get(), complaints);
    }

    /** What is missing or wrong, one sentence each without its capital. */
    List<String> complaints() {
        List<String> complaints = new ArrayList<>();
        List<PulleyBearing> read = read(complaints);
        if (complaints.isEmpty() && read.isEmpty()) {
            complaints.add("the part needs its bearing. " + BearingWords.HELP);
        }
        if (speed.get() == SpeedFrom.GIVEN && !(Numbers.read(rpm.get()).orElse(0) > 0)) {
            complaints.add("the speed of the turning ring is missing, rpm");
        }
        return complaints;
    }

    /** What was said; tells what is missing if something is. */
    Optional<Said> saidOrTold(Consumer<String> told) {
        List<String> complaints = complaints();
        if (!complaints.isEmpty()) {
            String first = complaints.get(0);
            told.accept("Not yet: " + first + (first.endsWith(".") ? "" : "."));
        }
        return said();
    }

    /** What was said; empty as long as something is missing or wrong. */
    Optional<Said> said() {
        if (!complaints().isEmpty()) {
            return Optional.empty();
        }
        List<PulleyBearing> read = read(new ArrayList<>());
        List<String> notes = new ArrayList<>();
        if (read.size() > 1) {
            notes.add("Of several bearings the first is looked for; pick them one by one.");
        }
        Optional<BearingGeometry> known = internals(read.get(0), notes);
        OptionalDouble typed = Numbers.read(rpm.get());
        return Optional.of(
                new Said(
                        called(),
                        known.orElse(STAND_IN),
                        known.isPresent(),
                        notes,
                        ring.get(),
                        speed.get(),
                        speed.get() == SpeedFrom.GIVEN ? typed.orElse(0) : 0));
    }

    private static Optional<BearingGeometry> internals(PulleyBearing b, List<String> notes) {
        if (b.geometry().isPresent()) {
            return b.geometry();
        }
        List<BearingGeometry> typical =
                b.designation().map(BearingTable::typical).orElse(List.of());
        if (typical.isEmpty()) {
            return Optional.empty();
        }
        BearingGeometry first = typical.get(0);
        StringBuilder note = new StringBuilder("A ");
        note.append(b.designation().orElse("")).append(" is taken to have ").append(words(first));
        note.append(", as is usual; count its balls if you can");
        for (BearingGeometry other : typical.subList(1, typical.size())) {
            note.append(", or try ").append(words(other));
        }
        notes.add(note.append('.').toString());
        return Optional.of(first);
    }

    private static String words(BearingGeometry g) {
        return BearingWords.of(PulleyBearing.ofGeometry(g, Ring.OUTER));
    }

    /**
     * Returns what to watch for.
     *
     * @return whole sentences
     */
    public static List<String> cautions() {
        List<String> all = new ArrayList<>(Caution.BENCH.sentences());
        all.add(Caution.comesFirst());
        return all;
    }
}
