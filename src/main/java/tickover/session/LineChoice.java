package tickover.session;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import tickover.link.SerialLink;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.wire.TextUnit;

/**
 * The lines to record from, found and identified.
 *
 * @param lines the probe first
 */
public record LineChoice(List<RecordLine> lines) {
    public LineChoice {
        lines = List.copyOf(lines);
    }

    /**
     * What a person asked for.
     *
     * @param probePort the probe's port; empty to take the one that answers like a probe
     * @param baud speed of the probe's line; 0 to find it
     * @param tachPort a second board for tach edges; empty for none
     * @param obdPort an adapter; empty for none
     * @param columns header of a plain-text probe that sends none; empty otherwise
     * @param units word for what its numbers stand for; empty if it is known or remembered
     * @param countMps2 m/s² per count, where they are counts; 0 otherwise
     * @param dataFolder where answers are remembered
     */
    public record Wish(
            String probePort,
            int baud,
            String tachPort,
            String obdPort,
            String columns,
            String units,
            double countMps2,
            Path dataFolder) {
        public Wish {
            Objects.requireNonNull(probePort, "probePort");
            Objects.requireNonNull(tachPort, "tachPort");
            Objects.requireNonNull(obdPort, "obdPort");
            Objects.requireNonNull(columns, "columns");
            Objects.requireNonNull(units, "units");
            Objects.requireNonNull(dataFolder, "dataFolder");
        }
    }

    /**
     * Finds the lines.
     *
     * @param wish what was asked for
     * @param progress hears what is being done
     * @return the lines, none of them open
     * @throws AcquisitionException if a port does not answer as it should, or there is no telling
     *     which one is the probe
     */
    public static LineChoice of(Wish wish, Consumer<String> progress) {
        List<RecordLine> lines = new ArrayList<>();
        lines.add(line(probe(wish, progress)));
        if (!wish.tachPort().isEmpty()) {
            progress.accept("asking " + wish.tachPort());
            PortAnswer tach = PortSurvey.ask(wish.tachPort(), 0);
            require(tach, PortAnswer.Kind.PROBE, "a board that times tach edges");
            lines.add(line(info(Role.TACH, Language.FRAMES, tach)));
        }
        if (!wish.obdPort().isEmpty()) {
            progress.accept("asking " + wish.obdPort());
            PortAnswer adapter = PortSurvey.ask(wish.obdPort(), 0);
            require(adapter, PortAnswer.Kind.ADAPTER, "a text-command adapter");
            lines.add(line(info(Role.ADAPTER, Language.COMMANDS, adapter)));
        }
        return new LineChoice(lines);
    }

    private static SourceInfo info(Role role, Language language, PortAnswer answer) {
        return SourceInfo.of(role, language, answer.port(), answer.baud(), answer.deviceKey());
    }

    private static RecordLine line(SourceInfo info) {
        return new RecordLine(info, () -> SerialLink.open(info.port(), info.baud()));
    }

    private static void require(PortAnswer answer, PortAnswer.Kind kind, String what) {
        if (answer.kind() == kind) {
            return;
        }
        boolean closed = answer.kind() == PortAnswer.Kind.CLOSED;
        throw new AcquisitionException(
                AcquisitionException.Kind.OUTSIDE,
                closed
                        ? answer.text()
                        : answer.port()
                                + " answers like "
                                + article(answer.kind())
                                + ", not like "
                                + what
                                + "; 'tickover ports' shows what answers where",
                null);
    }

    private static String article(PortAnswer.Kind kind) {
        return kind.isDevice() ? "a " + kind.words() : kind.words();
    }

    private static SourceInfo probe(Wish wish, Consumer<String> progress) {
        PortAnswer answer = wish.probePort().isEmpty() ? only(progress) : asked(wish, progress);
        if (answer.kind() == PortAnswer.Kind.TEXT_PROBE) {
            SourceInfo info = info(Role.PROBE, Language.TEXT, answer);
            return TextSettings.of(wish.dataFolder()).apply(info, wish, answer.columns());
        }
        require(answer, PortAnswer.Kind.PROBE, "a probe");
        if (!wish.units().isEmpty() || !wish.columns().isEmpty()) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    "--units and --columns are for plain-text probes; the probe on "
                            + answer.port()
                            + " says itself what it sends",
                    null);
        }
        return info(Role.PROBE, Language.FRAMES, answer);
    }

    private static PortAnswer asked(Wish wish, Consumer<String> progress) {
        progress.accept("asking " + wish.probePort());
        return PortSurvey.ask(wish.probePort(), wish.baud());
    }

    /** The one port that answers like a probe. */
    private static PortAnswer only(Consumer<String> progress) {
        List<PortAnswer> probes =
                PortSurvey.ask(List.of(), progress).stream()
                        .filter(
                                a ->
                                        a.kind() == PortAnswer.Kind.PROBE
                                                || a.kind() == PortAnswer.Kind.TEXT_PROBE)
                        .toList();
        if (probes.size() == 1) {
            return probes.get(0);
        }
        List<String> names = probes.stream().map(PortAnswer::port).toList();
        throw new AcquisitionException(
                names.isEmpty()
                        ? AcquisitionException.Kind.OUTSIDE
                        : AcquisitionException.Kind.BAD_INPUT,
                names.isEmpty()
                        ? "no port answers like a probe; plug it in, or name its port with --port"
                                + " ('tickover ports' shows what answers where)"
                        : String.join(" and ", names)
                                + " answer like probes; choose one with --port",
                null);
    }

    /** The word that a person writes for a unit. */
    static TextUnit unit(String word) {
        return switch (word) {
            case "mps2", "m/s2" -> TextUnit.MPS2;
            case "g" -> TextUnit.G;
            case "mg" -> TextUnit.MILLI_G;
            case "counts" -> TextUnit.COUNTS;
            default ->
                    throw new AcquisitionException(
                            AcquisitionException.Kind.BAD_INPUT,
                            "--units " + word + ": write mps2, g, mg or counts",
                            null);
        };
    }
}
