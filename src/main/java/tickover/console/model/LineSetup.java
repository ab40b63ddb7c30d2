package tickover.console.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import tickover.diagnose.Mount;
import tickover.session.LineChoice;
import tickover.session.PortAnswer;
import tickover.session.PortSurvey;

/**
 * What to record from: which probe, where the speed comes from, how the probe is held, and where
 * the tach's mark is. Nothing has to be chosen where one probe answers and its own tach sees the
 * crank.
 */
public final class LineSetup {
    private final ConsoleModel console;
    private final ObservableList<Device> probes = FXCollections.observableArrayList(Device.ANY);
    private final ObservableList<Device> speeds = FXCollections.observableArrayList(Device.OWN);
    private final ObjectProperty<Device> probe = new SimpleObjectProperty<>(Device.ANY);
    private final ObjectProperty<Device> speed = new SimpleObjectProperty<>(Device.OWN);
    private final ObjectProperty<Mount> mount = new SimpleObjectProperty<>(Mount.HAND);
    private final StringProperty marked = new SimpleStringProperty("crank");
    private final StringProperty marks = new SimpleStringProperty("1");
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);

    /**
     * Something that answers at a port.
     *
     * @param port its port; empty for no particular one
     * @param kind what it is
     * @param words what it is called
     */
    public record Device(String port, PortAnswer.Kind kind, String words) {
        /** The one port that answers like a probe. */
        public static final Device ANY =
                new Device("", PortAnswer.Kind.PROBE, "the one that answers");

        /** Nothing beside the probe. */
        public static final Device OWN =
                new Device("", PortAnswer.Kind.PROBE, "the probe's own tach, else the sound");

        public Device {
            Objects.requireNonNull(port, "port");
            Objects.requireNonNull(kind, "kind");
            Objects.requireNonNull(words, "words");
        }
    }

    LineSetup(ConsoleModel console) {
        this.console = console;
        String named = console.options().port();
        if (!named.isEmpty()) {
            probe.set(new Device(named, PortAnswer.Kind.PROBE, named));
            probes.add(probe.get());
        }
    }

    /** Asks every port what it is. Takes some seconds; nothing may be recording. */
    public void ask() {
        if (console.isRecordingElsewhere(this)) {
            return;
        }
        busy.set(true);
        console.say("Asking the ports…");
        console.errands()
                .send(
                        () -> PortSurvey.ask(List.of(), progress -> {}),
                        found -> {
                            busy.set(false);
                            offer(found);
                        },
                        why -> {
                            busy.set(false);
                            console.say(why);
                        });
    }

    /** Offers what answered; what was chosen stays if it is still there. */
    void offer(List<PortAnswer> found) {
        List<Device> probeNow = new ArrayList<>(List.of(Device.ANY));
        List<Device> speedNow = new ArrayList<>(List.of(Device.OWN));
        for (PortAnswer a : found) {
            String called = a.port() + (a.text().isBlank() ? "" : ", " + a.text());
            switch (a.kind()) {
                case PROBE -> {
                    probeNow.add(new Device(a.port(), a.kind(), called));
                    speedNow.add(new Device(a.port(), a.kind(), "tach board at " + called));
                }
                case TEXT_PROBE -> probeNow.add(new Device(a.port(), a.kind(), called));
                case ADAPTER ->
                        speedNow.add(
                                new Device(a.port(), a.kind(), "diagnostic socket at " + called));
                case NOTHING, CLOSED, NOT_ASKED -> {}
            }
        }
        int devices = probeNow.size() - 1;
        String named = console.options().port();
        if (!named.isEmpty() && probeNow.stream().noneMatch(d -> d.port().equals(named))) {
            // Ports that no system lists are opened by their name all the same.
            probeNow.add(new Device(named, PortAnswer.Kind.PROBE, named));
        }
        Device keptProbe = probe.get();
        Device keptSpeed = speed.get();
        probe.set(null);
        speed.set(null);
        probes.setAll(probeNow);
        speeds.setAll(speedNow);
        probe.set(
                probeNow.stream()
                        .filter(d -> keptProbe != null && d.port().equals(keptProbe.port()))
                        .findFirst()
                        .orElse(Device.ANY));
        speed.set(speedNow.contains(keptSpeed) ? keptSpeed : Device.OWN);
        console.say(
                devices == 0
                        ? "No port answers like a probe: is it plugged in, is another program using"
                                + " it?"
                        : devices == 1
                                ? "One probe answers."
                                : devices + " probes answer; choose one.");
    }

    /** What was chosen, for those who open the lines. */
    LineChoice.Wish wish(Path dataDir) {
        Device p = probe.get() == null ? Device.ANY : probe.get();
        Device s = speed.get() == null ? Device.OWN : speed.get();
        boolean adapter = s.kind() == PortAnswer.Kind.ADAPTER;
        return new LineChoice.Wish(
                p.port(), 0, adapter ? "" : s.port(), adapter ? s.port() : "", "", "", 0, dataDir);
    }

    /** Tach edges per turn of the marked pulley; 1 where nothing sensible was typed. */
    int pulsesPerTurn() {
        double typed = Numbers.read(marks.get()).orElse(1);
        return typed >= 1 && typed <= 1000 ? (int) Math.rint(typed) : 1;
    }

    /**
     * Returns whether ports are being asked.
     *
     * @return observable
     */
    public ReadOnlyBooleanProperty busy() {
        return busy.getReadOnlyProperty();
    }

    /**
     * Returns the probes to choose from.
     *
     * @return observable, the one that answers first
     */
    public ObservableList<Device> probes() {
        return probes;
    }

    /**
     * Returns where speed can come from.
     *
     * @return observable, the probe itself first
     */
    public ObservableList<Device> speeds() {
        return speeds;
    }

    /**
     * Returns the chosen probe.
     *
     * @return observable
     */
    public ObjectProperty<Device> probe() {
        return probe;
    }

    /**
     * Returns where the speed comes from.
     *
     * @return observable
     */
    public ObjectProperty<Device> speed() {
        return speed;
    }

    /**
     * Returns how the probe is held.
     *
     * @return observable, never null
     */
    public ObjectProperty<Mount> mount() {
        return mount;
    }

    /**
     * Returns the pulley that carries the tach's mark.
     *
     * @return its name
     */
    public StringProperty marked() {
        return marked;
    }

    /**
     * Returns how many marks it carries.
     *
     * @return as typed
     */
    public StringProperty marks() {
        return marks;
    }
}
