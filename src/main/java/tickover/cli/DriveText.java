package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import tickover.drive.Collision;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Engine;
import tickover.drive.PartLine;
import tickover.drive.PartWords;
import tickover.drive.Vehicle;
import tickover.report.Wording;

/** An accessory drive as a person reads it. */
final class DriveText {
    private static final double SECONDS_PER_MINUTE = 60;
    private static final String NOT_KNOWN = "-";

    private DriveText() {}

    static List<String> lines(DriveModel model) {
        Vehicle vehicle = model.vehicle();
        Engine engine = vehicle.engine();
        List<String> lines = new ArrayList<>();
        lines.add(
                vehicle.unit()
                        + (vehicle.description().isBlank() ? "" : ": " + vehicle.description()));
        lines.add(
                engine.cylinders()
                        + " cylinders, "
                        + engine.strokes()
                        + " strokes, fires "
                        + Prose.three(engine.firingOrders())
                        + " times per crank turn"
                        + idle(engine));
        lines.add("");
        lines.addAll(parts(model));
        lines.add("");
        lines.addAll(orders(model));
        lines.addAll(belts(model));
        lines.addAll(collisions(model));
        lines.addAll(notes(model));
        return lines;
    }

    private static String idle(Engine engine) {
        return engine.idleRpm().isPresent()
                ? ", idles at " + Prose.fixed(engine.idleRpm().getAsDouble(), 0) + " rpm"
                : "";
    }

    private static List<String> parts(DriveModel model) {
        TextTable table =
                new TextTable(
                        "Part",
                        "Role",
                        ">Turns per crank turn",
                        ">At idle, rpm",
                        "Turns",
                        ">Wrap, deg");
        OptionalDouble idle = model.vehicle().engine().idleRpm();
        for (DrivePart p : model.parts()) {
            table.row(
                    PartWords.plain(p.name()),
                    p.role().word(),
                    Prose.fixed(p.turnsPerCrankTurn(), 4),
                    idle.isPresent()
                            ? Prose.fixed(idle.getAsDouble() * p.turnsPerCrankTurn(), 0)
                            : NOT_KNOWN,
                    switch (p.direction()) {
                        case CRANK -> "with the crank";
                        case COUNTER -> "against it";
                    },
                    p.wrapDeg().isPresent()
                            ? Prose.fixed(p.wrapDeg().getAsDouble(), 1)
                            : NOT_KNOWN);
        }
        return table.lines();
    }

    private static List<String> orders(DriveModel model) {
        TextTable table =
                new TextTable(
                        "Part",
                        "Line",
                        ">Order per crank turn",
                        ">+-, %",
                        ">At idle, Hz",
                        "Sidebands");
        OptionalDouble idle = model.vehicle().engine().idleRpm();
        for (PartLine l : model.lines()) {
            table.row(
                    PartWords.plain(l.part()),
                    Wording.line(l.kind()),
                    Prose.fixed(l.order(), 4),
                    Prose.fixed(100 * l.uncertaintyRatio(), 1),
                    idle.isPresent()
                            ? Prose.fixed(idle.getAsDouble() / SECONDS_PER_MINUTE * l.order(), 1)
                            : NOT_KNOWN,
                    l.sidebandOrders().stream()
                            .map(o -> Prose.fixed(o, 3))
                            .collect(Collectors.joining(", ")));
        }
        return table.lines();
    }

    private static List<String> belts(DriveModel model) {
        List<String> lines = new ArrayList<>();
        if (model.belts().isEmpty()) {
            return lines;
        }
        TextTable table = new TextTable("Belt", ">Length, mm", ">Rounds per crank turn");
        for (DriveBelt b : model.belts()) {
            table.row(
                    b.name(),
                    b.lengthMm().isPresent()
                            ? Prose.fixed(b.lengthMm().getAsDouble(), 1)
                            : NOT_KNOWN,
                    b.order().isPresent() ? Prose.fixed(b.order().getAsDouble(), 4) : NOT_KNOWN);
        }
        lines.add("");
        lines.addAll(table.lines());
        return lines;
    }

    private static List<String> collisions(DriveModel model) {
        List<String> lines = new ArrayList<>();
        if (model.collisions().isEmpty()) {
            return lines;
        }
        lines.add("");
        lines.addAll(
                Prose.fold(
                        "",
                        "These lines stand so close that order cannot tell them apart at any"
                                + " speed; only place, sidebands, a load change or a belt-off run"
                                + " can:"));
        TextTable table = new TextTable("Line", ">Order", "Line", ">Order");
        for (Collision c : model.collisions()) {
            table.row(
                    PartWords.plain(c.a()) + ", " + Wording.line(c.aLine()),
                    Prose.fixed(c.orderA(), 3),
                    PartWords.plain(c.b()) + ", " + Wording.line(c.bLine()),
                    Prose.fixed(c.orderB(), 3));
        }
        lines.addAll(table.lines());
        return lines;
    }

    private static List<String> notes(DriveModel model) {
        List<String> lines = new ArrayList<>();
        if (!model.notes().isEmpty()) {
            lines.add("");
            model.notes().forEach(n -> lines.addAll(Prose.fold("Note: ", n)));
        }
        return lines;
    }
}
