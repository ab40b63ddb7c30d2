package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import tickover.drive.Condition;
import tickover.drive.PartLine;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.session.Loudness;
import tickover.session.PartListening.How;
import tickover.store.KeptVisit;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/** What is to be listened to: which part, in which capture, and against which earlier visit. */
public final class ListenChoice {
    private final ConsoleModel console;
    private final Runnable changed;
    private final ObservableList<ListenSource> visits = FXCollections.observableArrayList();
    private final ObservableList<ListenSource> earliers = FXCollections.observableArrayList();
    private final ObservableList<String> captures = FXCollections.observableArrayList();
    private final ObservableList<String> parts = FXCollections.observableArrayList();
    private final ObjectProperty<ListenSource> visit = new SimpleObjectProperty<>();
    private final ObjectProperty<ListenSource> earlier = new SimpleObjectProperty<>();
    private final ObjectProperty<String> capture = new SimpleObjectProperty<>();
    private final ObjectProperty<String> part = new SimpleObjectProperty<>();
    private final ObjectProperty<How> how = new SimpleObjectProperty<>(How.BOTH);
    private final ObjectProperty<Loudness.Keep> keep =
            new SimpleObjectProperty<>(Loudness.Keep.LOUDNESS);
    private Visit opened;

    /** Tells somebody whenever something else is chosen. */
    ListenChoice(ConsoleModel console, Runnable changed) {
        this.console = console;
        this.changed = changed;
        visit.addListener((o, was, now) -> open());
        for (ObjectProperty<?> one : List.of(earlier, capture, part, how, keep)) {
            one.addListener((o, was, now) -> changed.run());
        }
        part.addListener((o, was, now) -> atItsPoint());
    }

    /**
     * Returns the visits to listen to.
     *
     * @return observable, newest first
     */
    public ObservableList<ListenSource> visits() {
        return visits;
    }

    /**
     * Returns the visits that can be held against the chosen one.
     *
     * @return observable, none first
     */
    public ObservableList<ListenSource> earliers() {
        return earliers;
    }

    /**
     * Returns the chosen visit's captures.
     *
     * @return observable, in words
     */
    public ObservableList<String> captures() {
        return captures;
    }

    /**
     * Returns what can be listened to alone.
     *
     * @return observable: pulleys, and the engine
     */
    public ObservableList<String> parts() {
        return parts;
    }

    /**
     * Returns the chosen visit.
     *
     * @return observable; null inside before there is one
     */
    public ObjectProperty<ListenSource> visit() {
        return visit;
    }

    /**
     * Returns the visit that is held against it.
     *
     * @return observable; null inside before there is one
     */
    public ObjectProperty<ListenSource> earlier() {
        return earlier;
    }

    /**
     * Returns the chosen capture.
     *
     * @return observable; one of {@link #captures}
     */
    public ObjectProperty<String> capture() {
        return capture;
    }

    /**
     * Returns the chosen part.
     *
     * @return observable; one of {@link #parts}
     */
    public ObjectProperty<String> part() {
        return part;
    }

    /**
     * Returns what of the part is heard.
     *
     * @return observable, never null
     */
    public ObjectProperty<How> how() {
        return how;
    }

    /**
     * Returns what is kept equal before and after.
     *
     * @return observable, never null
     */
    public ObjectProperty<Loudness.Keep> keep() {
        return keep;
    }

    /** Reads the vehicle's visits and offers the newest, with its likeliest suspect. */
    void load() {
        String unit = console.unit().get();
        console.errands()
                .send(() -> KeptStory.newestFirst(console, unit), this::offer, console::say);
    }

    private void offer(List<KeptVisit> found) {
        List<ListenSource> all = new ArrayList<>();
        if (console.round().soFar().isPresent()) {
            all.add(ListenSource.ROUND);
        }
        found.forEach(v -> all.add(ListenSource.of(v)));
        boolean same = all.equals(visits) && !all.contains(ListenSource.ROUND);
        if (same) {
            return;
        }
        List<String> names = new ArrayList<>();
        console.vehicle().map(Vehicle::pulleys).orElse(List.of()).stream()
                .map(Pulley::name)
                .forEach(names::add);
        names.add(PartLine.ENGINE);
        if (!names.equals(parts)) {
            parts.setAll(names);
            part.set(suspect(names));
        }
        visits.setAll(all);
        visit.set(null);
        visit.set(all.isEmpty() ? null : all.get(0));
    }

    /** What the findings name first, if it is a pulley. */
    private String suspect(List<String> names) {
        return console.findings().state().get().suspects().stream()
                .map(FindingsState.Suspect::component)
                .filter(names::contains)
                .findFirst()
                .orElseGet(() -> firstDriven(names));
    }

    private String firstDriven(List<String> names) {
        return console.vehicle().map(Vehicle::pulleys).orElse(List.of()).stream()
                .filter(p -> p.role() != Role.CRANK)
                .map(Pulley::name)
                .findFirst()
                .orElse(names.get(0));
    }

    /** Opens the chosen visit: its captures, and which visits are earlier. */
    private void open() {
        ListenSource now = visit.get();
        changed.run();
        opened = null;
        if (now == null) {
            captures.clear();
            earliers.clear();
            return;
        }
        console.errands().send(() -> read(now), found -> opened(now, found), console::say);
    }

    Visit read(ListenSource from) {
        if (from.equals(ListenSource.ROUND)) {
            return console.round()
                    .soFar()
                    .orElseThrow(() -> new IllegalStateException("The round is over."))
                    .visit();
        }
        return console.fromLog(log -> log.visit(from.id()))
                .orElseThrow(() -> new IllegalStateException("The visit is gone."));
    }

    private void opened(ListenSource of, Visit found) {
        if (!of.equals(visit.get())) {
            return;
        }
        opened = found;
        List<ListenSource> before = new ArrayList<>(List.of(ListenSource.NONE));
        before.addAll(visits.subList(visits.indexOf(of) + 1, visits.size()));
        earliers.setAll(before);
        earlier.set(null);
        earlier.set(before.get(before.size() > 1 ? 1 : 0));
        captures.setAll(
                found.captures().stream()
                        .filter(c -> c.removed().isEmpty())
                        .map(c -> ListenSource.words(c.label()))
                        .toList());
        atItsPoint();
    }

    /** A part is heard best at its own point, and without load as everything else is. */
    private void atItsPoint() {
        if (opened == null) {
            return;
        }
        capture.set(null);
        Optional<VisitCapture> own =
                opened.captures().stream()
                        .filter(c -> c.removed().isEmpty())
                        .filter(c -> c.label().point().equals(part.get()))
                        .min(
                                (a, b) ->
                                        Boolean.compare(
                                                !a.label().condition().equals(Condition.UNLOADED),
                                                !b.label().condition().equals(Condition.UNLOADED)));
        String words =
                own.map(c -> ListenSource.words(c.label()))
                        .orElse(captures.isEmpty() ? null : captures.get(0));
        capture.set(words);
        changed.run();
    }

    Optional<VisitCapture> chosen() {
        return Optional.ofNullable(opened).stream()
                .flatMap(v -> v.captures().stream())
                .filter(c -> ListenSource.words(c.label()).equals(capture.get()))
                .findFirst();
    }

    boolean wantsBefore() {
        return earlier.get() != null && !earlier.get().equals(ListenSource.NONE);
    }

    /** The visit that is open; there is one where {@link #chosen} is not empty. */
    Visit opened() {
        return opened;
    }

    /**
     * Says what of a part is heard.
     *
     * @param how which
     * @return a few words
     */
    public static String howWords(How how) {
        return switch (how) {
            case ORDERS -> "tones of its turn";
            case RINGING -> "ringing of its bearing";
            case BOTH -> "both together";
        };
    }
}
