package tickover.console.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import tickover.drive.Belt;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/** Makes a vehicle of what was typed, or says in sentences what is missing. */
final class DriveReader {
    private static final int MOST_CYLINDERS = 16;

    private final DriveState state;
    private final List<String> complaints = new ArrayList<>();

    private DriveReader(DriveState state) {
        this.state = state;
    }

    static DriveOutcome read(DriveState state) {
        DriveReader reader = new DriveReader(state);
        Vehicle vehicle = reader.vehicle();
        if (vehicle == null) {
            return DriveOutcome.of(reader.complaints);
        }
        try {
            return DriveOutcome.of(DriveModel.of(vehicle), reader.complaints);
        } catch (IllegalArgumentException e) {
            reader.complaints.add(e.getMessage());
            return DriveOutcome.of(reader.complaints);
        }
    }

    /** Null if something that must be there is not. */
    private Vehicle vehicle() {
        int before = complaints.size();
        if (state.unit().isBlank()) {
            complaints.add("The vehicle needs a name: how the fleet calls it.");
        }
        Engine engine = engine();
        List<Pulley> pulleys = pulleys();
        List<Belt> belts = belts(pulleys.stream().map(Pulley::name).toList());
        if (complaints.size() > before || engine == null) {
            return null;
        }
        return new Vehicle(
                state.unit().strip(), state.description().strip(), engine, belts, pulleys);
    }

    private Engine engine() {
        OptionalInt cylinders = whole(state.cylinders());
        if (cylinders.isEmpty()
                || cylinders.getAsInt() < 1
                || cylinders.getAsInt() > MOST_CYLINDERS) {
            complaints.add(
                    "The engine needs its number of cylinders, 1 to " + MOST_CYLINDERS + ".");
            return null;
        }
        OptionalInt strokes = whole(state.strokes());
        if (strokes.isEmpty() || (strokes.getAsInt() != 4 && strokes.getAsInt() != 2)) {
            complaints.add("The engine is a four-stroke or a two-stroke: 4 or 2.");
            return null;
        }
        Engine engine = Engine.of(cylinders.getAsInt(), strokes.getAsInt());
        if (!state.idleRpm().isBlank()) {
            OptionalDouble idle = Numbers.read(state.idleRpm());
            if (idle.isEmpty() || !(idle.getAsDouble() > 0)) {
                complaints.add("The idle speed is a number in rpm, or empty.");
                return null;
            }
            engine = engine.withIdleRpm(idle.getAsDouble());
        }
        return fired(engine);
    }

    private Engine fired(Engine engine) {
        if (state.firingOrder().isBlank()) {
            return engine;
        }
        List<OptionalInt> typed =
                Arrays.stream(state.firingOrder().split("[,;\\s-]+"))
                        .filter(w -> !w.isBlank())
                        .map(DriveReader::whole)
                        .toList();
        Set<Integer> seen = new HashSet<>();
        for (OptionalInt cylinder : typed) {
            cylinder.ifPresent(seen::add);
        }
        boolean once =
                typed.size() == engine.cylinders()
                        && seen.size() == engine.cylinders()
                        && seen.stream().allMatch(c -> c >= 1 && c <= engine.cylinders());
        if (!once) {
            complaints.add(
                    "The firing order names each cylinder from 1 to "
                            + engine.cylinders()
                            + " once, or is empty.");
            return null;
        }
        return engine.withFiringOrder(typed.stream().map(OptionalInt::getAsInt).toList());
    }

    private List<Pulley> pulleys() {
        List<Pulley> pulleys = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (PulleyRow row : state.pulleys()) {
            pulley(row, names, pulleys);
        }
        long cranks = state.pulleys().stream().filter(r -> r.role() == Role.CRANK).count();
        if (cranks != 1) {
            complaints.add("Exactly one pulley is the crank's; all others are measured by it.");
        }
        return pulleys;
    }

    private void pulley(PulleyRow row, Set<String> names, List<Pulley> pulleys) {
        String name = row.name().strip();
        if (name.isEmpty()) {
            complaints.add("A pulley has no name.");
            return;
        }
        if (!names.add(name)) {
            complaints.add("Two pulleys are called " + name + "; each needs a name of its own.");
            return;
        }
        OptionalDouble diameter = Numbers.read(row.diameter());
        if (diameter.isEmpty() || !(diameter.getAsDouble() > 0)) {
            complaints.add("The " + name + " needs its diameter.");
            return;
        }
        Pulley.Builder pulley =
                Pulley.named(name, row.role(), diameter.getAsDouble()).face(row.face());
        place(row, name, pulley);
        List<String> about = new ArrayList<>();
        for (PulleyBearing bearing : BearingWords.read(row.bearings(), row.ring(), about)) {
            pulley.bearing(bearing);
        }
        about.forEach(sentence -> complaints.add("On the " + name + ", " + sentence));
        for (String word : row.lines().split("[,;]", -1)) {
            line(word.strip(), name, pulley);
        }
        pulleys.add(pulley.build());
    }

    private void place(PulleyRow row, String name, Pulley.Builder pulley) {
        boolean noPlace = row.x().isBlank() && row.y().isBlank();
        OptionalDouble x = Numbers.read(row.x());
        OptionalDouble y = Numbers.read(row.y());
        if (x.isPresent() && y.isPresent()) {
            pulley.at(new Position(x.getAsDouble(), y.getAsDouble()));
        } else if (!noPlace) {
            complaints.add(
                    "The place of the " + name + " needs both numbers, across and up, or neither.");
        }
    }

    private void line(String words, String name, Pulley.Builder pulley) {
        if (words.isEmpty()) {
            return;
        }
        String[] parts = words.split("\\s+", 2);
        OptionalDouble perTurn = Numbers.read(parts[0]);
        if (parts.length < 2 || perTurn.isEmpty() || !(perTurn.getAsDouble() > 0)) {
            complaints.add(
                    "What passes per turn of the "
                            + name
                            + " is a number and a word, such as 11 blades.");
            return;
        }
        pulley.line(new PassLine(parts[1].strip(), perTurn.getAsDouble()));
    }

    private List<Belt> belts(List<String> pulleys) {
        List<Belt> belts = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (BeltRow row : state.belts()) {
            String name = row.name().strip();
            if (name.isEmpty() || !names.add(name)) {
                complaints.add("Each belt needs a name of its own.");
                continue;
            }
            List<String> stops = row.stops();
            for (String stop : stops) {
                if (!pulleys.contains(stop)) {
                    complaints.add(
                            "The belt " + name + " runs over " + stop + ", which is no pulley.");
                }
            }
            if (stops.size() == 1) {
                complaints.add("The belt " + name + " needs two pulleys or more, in order.");
            }
            if (new HashSet<>(stops).size() < stops.size()) {
                complaints.add("The belt " + name + " touches each pulley once.");
            }
            if (row.length().isBlank()) {
                belts.add(Belt.of(name, stops));
                continue;
            }
            OptionalDouble length = Numbers.read(row.length());
            if (length.isEmpty() || !(length.getAsDouble() > 0)) {
                complaints.add("The length of the belt " + name + " is a number, or empty.");
                continue;
            }
            belts.add(Belt.of(name, length.getAsDouble(), stops));
        }
        return belts;
    }

    private static OptionalInt whole(String text) {
        OptionalDouble number = Numbers.read(text);
        return number.isPresent() && number.getAsDouble() == Math.rint(number.getAsDouble())
                ? OptionalInt.of((int) number.getAsDouble())
                : OptionalInt.empty();
    }
}
