package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.Supplier;
import tickover.link.ByteLink;
import tickover.link.LinkException;
import tickover.link.SerialLink;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.BenchScene;
import tickover.sim.LineScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedAdapter;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedDevice;
import tickover.sim.SimulatedProbe;
import tickover.sim.SimulatedVan;
import tickover.sim.VisitScene;
import tickover.sim.WaitingScene;

/**
 * A simulated visit played in real time by a simulated probe, and by a simulated adapter if wanted.
 * Where the system has pseudo-terminals the devices sit behind them and are opened like any other
 * port; elsewhere they are read directly.
 */
public final class SimulatedLine implements AutoCloseable {
    /** Pseudo-terminals take any speed and keep none. */
    private static final int BAUD = 1_000_000;

    private final LineScene scene;
    private final List<PlannedCapture> plan;
    private final double durationS;
    private final long originNanos = System.nanoTime();
    private final List<RecordLine> lines = new ArrayList<>();
    private final List<SimulatedPort> ports = new ArrayList<>();

    /**
     * What the line is like.
     *
     * @param adapter whether there is an adapter on the diagnostic socket as well
     * @param bitErrorRatio chance of each bit of the probe's to flip
     * @param seed of the line's draws
     */
    public record Spec(boolean adapter, double bitErrorRatio, long seed) {
        /** A probe with a tach on a good line. */
        public static final Spec GOOD = new Spec(false, 0, 1);
    }

    private SimulatedLine(LineScene scene, List<PlannedCapture> plan, double durationS) {
        this.scene = scene;
        this.plan = List.copyOf(plan);
        this.durationS = durationS;
    }

    /**
     * Waits until somebody starts the probe, and plays the captures then; plays them again for
     * whoever starts it after their end.
     *
     * @param captures at least one, all of one sample rate
     * @param spec what the line is like
     * @return the waiting line
     */
    public static SimulatedLine whenAsked(List<SimulatedCapture> captures, Spec spec) {
        VisitScene visit = new VisitScene(captures);
        List<PlannedCapture> plan =
                captures.stream()
                        .map(SimulatedFolders::label)
                        .map(
                                l ->
                                        new PlannedCapture(
                                                l.point(),
                                                l.axis(),
                                                l.mount(),
                                                l.regime(),
                                                l.condition()))
                        .toList();
        SimulatedLine line =
                new SimulatedLine(
                        new WaitingScene(visit, visit.durationS()), plan, visit.durationS());
        line.connect(captures.get(0).recorder(), spec);
        return line;
    }

    /**
     * Plays a van to which the probe is held as it is told, without end.
     *
     * @param van the van
     * @param spec what the line is like
     * @return the playing line
     */
    public static SimulatedLine van(SimulatedVan van, Spec spec) {
        SimulatedLine line = new SimulatedLine(van, List.of(), Double.POSITIVE_INFINITY);
        line.connect(van.recorder(), spec);
        return line;
    }

    /**
     * Plays a bench on which parts are turned as they are put up, without end.
     *
     * @param bench the bench
     * @param spec what the line is like
     * @return the playing line
     */
    public static SimulatedLine bench(BenchScene bench, Spec spec) {
        SimulatedLine line = new SimulatedLine(bench, List.of(), Double.POSITIVE_INFINITY);
        line.connect(BenchScene.recorder(), spec);
        return line;
    }

    private void connect(SimulatedCapture.Recorder recorder, Spec spec) {
        Objects.requireNonNull(spec, "spec");
        SimulatedProbe.Spec probe =
                SimulatedProbe.Spec.ordinary(recorder.sampleRateHz(), recorder.scaleMps2());
        LineTrouble.Spec trouble = new LineTrouble.Spec(spec.bitErrorRatio(), 0, 0.001, 0);
        add(
                Role.PROBE,
                Language.FRAMES,
                new SimulatedProbe(probe, scene),
                new LineTrouble(trouble, spec.seed()));
        if (spec.adapter()) {
            add(
                    Role.ADAPTER,
                    Language.COMMANDS,
                    new SimulatedAdapter(SimulatedAdapter.Spec.ORDINARY, scene, spec.seed()),
                    new LineTrouble(LineTrouble.Spec.NONE, spec.seed()));
        }
    }

    private void add(Role role, Language language, SimulatedDevice device, LineTrouble trouble) {
        String name = "simulated-" + role.name().toLowerCase(Locale.ROOT);
        ByteLink direct = new SimulatedLink(name, device, trouble, originNanos);
        String path = name;
        Supplier<ByteLink> open = () -> direct;
        try {
            SimulatedPort port = new SimulatedPort(direct);
            ports.add(port);
            path = port.path();
            open = () -> SerialLink.open(port.path(), BAUD);
        } catch (LinkException noTerminals) {
            // Read directly then; everything after the port is the same.
        }
        lines.add(new RecordLine(SourceInfo.of(role, language, path, BAUD, name), open));
    }

    /**
     * Returns where to record from.
     *
     * @return the probe first
     */
    public List<RecordLine> lines() {
        return List.copyOf(lines);
    }

    /**
     * Returns what is captured, in the order in which it happens.
     *
     * @return one for each of the scene's captures
     */
    public List<PlannedCapture> plan() {
        return plan;
    }

    /**
     * Returns whether the devices sit behind ports that other programs can open.
     *
     * @return false where the system has no pseudo-terminals
     */
    public boolean behindPorts() {
        return ports.size() == lines.size();
    }

    /**
     * Returns how long it plays until the last capture is over.
     *
     * @return s
     */
    public double durationS() {
        return durationS;
    }

    /** Unplugs everything. */
    @Override
    public void close() {
        ports.forEach(SimulatedPort::close);
    }
}
