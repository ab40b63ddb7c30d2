package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Broken folders: each is refused in one sentence that names file and key or row. */
class BadFolderTest {
    @TempDir Path temp;

    /** Breaks a good folder. */
    interface Breaking {
        void apply(Path dir) throws IOException;
    }

    /**
     * A row of the table.
     *
     * @param name what is wrong
     * @param breaking how it gets that way
     * @param place how the sentence starts
     * @param fragment what else it says
     */
    record Broken(String name, Breaking breaking, String place, String fragment) {
        @Override
        public String toString() {
            return name;
        }
    }

    private static Breaking vehicle(String from, String to) {
        return edit("vehicle.toml", from, to);
    }

    private static Breaking visit(String from, String to) {
        return edit("visit.toml", from, to);
    }

    private static Breaking edit(String name, String from, String to) {
        return dir -> {
            String text = Files.readString(dir.resolve(name));
            assertTrue(text.contains(from), name + " has no " + from);
            int at = text.indexOf(from);
            Files.writeString(
                    dir.resolve(name),
                    text.substring(0, at) + to + text.substring(at + from.length()));
        };
    }

    private static Breaking whole(String name, String text) {
        return dir -> Files.writeString(dir.resolve(name), text);
    }

    private static Breaking delete(String name) {
        return dir -> Files.delete(dir.resolve(name));
    }

    /** Overwrites a little-endian number of 2 or 4 bytes in a file. */
    private static Breaking patch(String name, int at, int bytes, int value) {
        return dir -> {
            byte[] whole = Files.readAllBytes(dir.resolve(name));
            ByteBuffer b = ByteBuffer.wrap(whole).order(ByteOrder.LITTLE_ENDIAN);
            if (bytes == 2) {
                b.putShort(at, (short) value);
            } else {
                b.putInt(at, value);
            }
            Files.write(dir.resolve(name), whole);
        };
    }

    private static Breaking cut(String name, int bytes) {
        return dir -> {
            byte[] whole = Files.readAllBytes(dir.resolve(name));
            Files.write(dir.resolve(name), Arrays.copyOf(whole, bytes));
        };
    }

    /** A bearing of an idler with other contents. */
    private static Breaking bearing(String contents) {
        return dir -> {
            String text = Files.readString(dir.resolve("vehicle.toml"));
            int from = text.indexOf("designation");
            int to = text.indexOf("rotating_ring");
            Files.writeString(
                    dir.resolve("vehicle.toml"),
                    text.substring(0, from) + contents + "\n" + text.substring(to));
        };
    }

    static List<Broken> table() {
        return Stream.of(folders(), vehicles(), pulleys(), visits(), captures(), csvs(), wavs())
                .flatMap(List::stream)
                .toList();
    }

    private static List<Broken> folders() {
        return List.of(
                new Broken("no vehicle.toml", delete("vehicle.toml"), "vehicle.toml: ", "missing"),
                new Broken("no visit.toml", delete("visit.toml"), "visit.toml: ", "missing"),
                new Broken(
                        "visit.toml is a folder",
                        d -> {
                            Files.delete(d.resolve("visit.toml"));
                            Files.createDirectory(d.resolve("visit.toml"));
                        },
                        "visit.toml: ",
                        "regular file"),
                new Broken(
                        "vehicle.toml is a link that leaves the folder",
                        d -> {
                            Path outside = d.resolveSibling("outside.toml");
                            Files.writeString(outside, Folders.VEHICLE);
                            Files.delete(d.resolve("vehicle.toml"));
                            Files.createSymbolicLink(d.resolve("vehicle.toml"), outside);
                        },
                        "vehicle.toml: ",
                        "link that leaves the folder"),
                new Broken(
                        "not UTF-8",
                        d -> {
                            byte[] latin =
                                    "[visit]\ncomplaint = \"é\"\n"
                                            .getBytes(StandardCharsets.ISO_8859_1);
                            Files.write(d.resolve("visit.toml"), latin);
                        },
                        "visit.toml line 2: ",
                        "save the file as UTF-8"),
                new Broken(
                        "UTF-8 cut short",
                        d -> Files.write(d.resolve("c01.tach.csv"), new byte[] {'t', (byte) 0xC3}),
                        "c01.tach.csv line 1: ",
                        "UTF-8"),
                new Broken(
                        "an unclosed list",
                        vehicle("[1, 3, 4, 2]", "[1, 3, 4, 2"),
                        "vehicle.toml line 1",
                        "is not TOML: Unexpected"),
                new Broken(
                        "a key given twice",
                        vehicle("strokes = 4", "strokes = 4\nstrokes = 4"),
                        "vehicle.toml line 8, column 1: ",
                        "previously defined"),
                new Broken(
                        "lists nested beyond measure",
                        whole("visit.toml", "x = " + "[".repeat(100_000)),
                        "visit.toml",
                        "is n"));
    }

    private static List<Broken> vehicles() {
        return List.of(
                new Broken(
                        "no vehicle table",
                        vehicle("[vehicle]\nunit = \"ML-07\"\ndescription", "#"),
                        "vehicle.toml: vehicle: ",
                        "is missing; give [vehicle]"),
                new Broken(
                        "no unit",
                        vehicle("unit =", "#"),
                        "vehicle.toml line 1: vehicle.unit: ",
                        "is missing"),
                new Broken(
                        "blank unit",
                        vehicle("\"ML-07\"", "\"  \""),
                        "vehicle.toml line 2: vehicle.unit: ",
                        "is blank"),
                new Broken(
                        "a line end in the unit",
                        vehicle("ML-07", "ML\\n07"),
                        "vehicle.toml line 2: vehicle.unit: ",
                        "control character"),
                new Broken(
                        "unit is a number",
                        vehicle("\"ML-07\"", "7"),
                        "vehicle.toml line 2: vehicle.unit: ",
                        "is \"7\"; give the fleet's name"),
                new Broken(
                        "unknown table",
                        vehicle("[engine]", "[motor]"),
                        "vehicle.toml line 5: motor: ",
                        "unknown key; known here: belts, engine, pulleys, vehicle"),
                new Broken(
                        "vehicle is no table",
                        whole("vehicle.toml", "vehicle = 3\n"),
                        "vehicle.toml line 1: vehicle: ",
                        "give a table, [vehicle]"),
                new Broken(
                        "no cylinders",
                        vehicle("cylinders = 4", ""),
                        "vehicle.toml line 5: engine.cylinders: ",
                        "is missing; give a whole number from 1 to 16"),
                new Broken(
                        "no whole number of cylinders",
                        vehicle("cylinders = 4", "cylinders = 4.5"),
                        "vehicle.toml line 6: engine.cylinders: ",
                        "whole number"),
                new Broken(
                        "three strokes",
                        vehicle("strokes = 4", "strokes = 3"),
                        "vehicle.toml line 7: engine.strokes: ",
                        "give 4 or 2"),
                new Broken(
                        "negative idle speed",
                        vehicle("780", "-780"),
                        "vehicle.toml line 8: engine.idle_rpm: ",
                        "-780 is not above 0"),
                new Broken(
                        "firing order leaves a cylinder out",
                        vehicle("[1, 3, 4, 2]", "[1, 3, 4, 4]"),
                        "vehicle.toml line 9: engine.firing_order: ",
                        "give each cylinder from 1 to 4 once"),
                new Broken(
                        "firing order too short",
                        vehicle("[1, 3, 4, 2]", "[1, 3, 2]"),
                        "vehicle.toml line 9: engine.firing_order: ",
                        "[1, 3, 2] is no firing order"),
                new Broken(
                        "firing order of words",
                        vehicle("[1, 3, 4, 2]", "[1, \"x\"]"),
                        "vehicle.toml line 9: engine.firing_order[2]: ",
                        "is the text \"x\""),
                new Broken(
                        "belt of no length",
                        vehicle("1100", "0"),
                        "vehicle.toml line 13: belts[1].length_mm: ",
                        "0 is not above 0"),
                new Broken(
                        "path names no pulley",
                        vehicle("\"idler\", \"alternator\"]", "\"idle\"]"),
                        "vehicle.toml line 14: belts[1].path: ",
                        "\"idle\" is no pulley"),
                new Broken(
                        "path names a pulley twice",
                        vehicle("\"idler\", \"alternator\"]", "\"idler\", \"idler\"]"),
                        "vehicle.toml line 14: belts[1].path: ",
                        "appears twice"),
                new Broken(
                        "path of one pulley",
                        vehicle("[\"crank\", \"idler\", \"alternator\"]", "[\"crank\"]"),
                        "vehicle.toml line 14: belts[1].path: ",
                        "give two or more"),
                new Broken(
                        "two belts of one name",
                        vehicle("[[belts]]", "[[belts]]\nname = \"main\"\n[[belts]]"),
                        "vehicle.toml line 14: belts[2].name: ",
                        "\"main\" appears twice"),
                new Broken(
                        "belts is one table",
                        vehicle("[[belts]]", "[belts]"),
                        "vehicle.toml line 11: belts: ",
                        "each under [[belts]]"));
    }

    private static List<Broken> pulleys() {
        return List.of(
                new Broken(
                        "two pulleys of one name",
                        vehicle("name = \"alternator\"", "name = \"idler\""),
                        "vehicle.toml line 37: pulleys[3].name: ",
                        "\"idler\" appears twice"),
                new Broken(
                        "unknown role",
                        vehicle("role = \"idler\"", "role = \"roller\""),
                        "vehicle.toml line 23: pulleys[2].role: ",
                        "give one of crank, alternator"),
                new Broken(
                        "no crank pulley",
                        vehicle("role = \"crank\"", "role = \"other\""),
                        "vehicle.toml line 16: pulleys: ",
                        "none has the role crank"),
                new Broken(
                        "no diameter",
                        vehicle("diameter_mm = 70", ""),
                        "vehicle.toml line 21: pulleys[2].diameter_mm: ",
                        "is missing"),
                new Broken(
                        "negative diameter",
                        vehicle("diameter_mm = 70", "diameter_mm = -70.5"),
                        "vehicle.toml line 24: pulleys[2].diameter_mm: ",
                        "-70.5 is not above 0"),
                new Broken(
                        "diameter is no number",
                        vehicle("diameter_mm = 70", "diameter_mm = nan"),
                        "vehicle.toml line 24: pulleys[2].diameter_mm: ",
                        "NaN is out of range"),
                new Broken(
                        "diameter in quotes",
                        vehicle("diameter_mm = 70", "diameter_mm = \"70\""),
                        "vehicle.toml line 24: pulleys[2].diameter_mm: ",
                        "is the text \"70\""),
                new Broken(
                        "unknown face",
                        vehicle("\"flat\"", "\"back\""),
                        "vehicle.toml line 25: pulleys[2].face: ",
                        "give one of grooved, flat"),
                new Broken(
                        "x without y",
                        vehicle("face = \"flat\"", "x_mm = 3"),
                        "vehicle.toml line 21: pulleys[2].y_mm: ",
                        "both x_mm and y_mm"),
                new Broken(
                        "misspelt key of a pulley",
                        vehicle("diameter_mm = 70", "diametre_mm = 70"),
                        "vehicle.toml line 24: pulleys[2].diametre_mm: ",
                        "unknown key"),
                new Broken(
                        "line without per_turn",
                        vehicle(", per_turn = 36", ""),
                        "vehicle.toml line 26: pulleys[2].lines[1].per_turn: ",
                        "is missing"),
                new Broken(
                        "bearing with balls alone",
                        bearing("balls = 8"),
                        "vehicle.toml line 28: pulleys[2].bearings[1].ball_diameter_mm: ",
                        "together"),
                new Broken(
                        "bearing with an angle alone",
                        bearing("designation = \"6203\"\ncontact_angle_deg = 15"),
                        "vehicle.toml line 28: pulleys[2].bearings[1].balls: ",
                        "together"),
                new Broken(
                        "two balls",
                        bearing("balls = 2\nball_diameter_mm = 6\npitch_diameter_mm = 28"),
                        "vehicle.toml line 29: pulleys[2].bearings[1].balls: ",
                        "3 or more"),
                new Broken(
                        "balls larger than their circle",
                        bearing("balls = 8\nball_diameter_mm = 28\npitch_diameter_mm = 6"),
                        "vehicle.toml line 31: pulleys[2].bearings[1].pitch_diameter_mm: ",
                        "6 is not above the ball diameter 28"),
                new Broken(
                        "contact angle of 90 degrees",
                        vehicle("contact_angle_deg = 0", "contact_angle_deg = 90"),
                        "vehicle.toml line 33: pulleys[2].bearings[1].contact_angle_deg: ",
                        "0 to below 90"),
                new Broken(
                        "unknown ring",
                        vehicle("rotating_ring = \"outer\"", "rotating_ring = \"both\""),
                        "vehicle.toml line 34: pulleys[2].bearings[1].rotating_ring: ",
                        "give one of outer, inner"));
    }

    private static List<Broken> visits() {
        return List.of(
                new Broken(
                        "no visit table",
                        whole("visit.toml", "[[captures]]\nfile = \"c01.wav\"\n"),
                        "visit.toml: visit: ",
                        "is missing; give [visit]"),
                new Broken(
                        "no date",
                        visit("date = 2026-03-04T09:30:00", ""),
                        "visit.toml line 1: visit.date: ",
                        "is missing"),
                new Broken(
                        "date in quotes",
                        visit("2026-03-04T09:30:00", "\"2026-03-04T09:30:00\""),
                        "visit.toml line 2: visit.date: ",
                        "without quotes"),
                new Broken(
                        "no such day",
                        visit("2026-03-04", "2026-02-30"),
                        "visit.toml line 2, column ",
                        "Invalid date"),
                new Broken(
                        "odometer below 0",
                        visit("182340", "-1"),
                        "visit.toml line 3: visit.odometer_km: ",
                        "-1 is below 0"),
                new Broken(
                        "id is no UUID",
                        visit("0195f0c2-7b3e", "0195f0c2-7b3"),
                        "visit.toml line 5: visit.id: ",
                        "is no UUID"),
                new Broken(
                        "unknown key of the visit",
                        visit("odometer_km", "odometer_miles"),
                        "visit.toml line 3: visit.odometer_miles: ",
                        "known here: complaint, date, id, odometer_km"),
                new Broken(
                        "no captures",
                        whole("visit.toml", "[visit]\ndate = 2026-03-04T09:30:00\n"),
                        "visit.toml: captures: ",
                        "at least one [[captures]]"));
    }

    private static List<Broken> captures() {
        return List.of(
                new Broken(
                        "no file",
                        visit("file = \"c02.wav\"", ""),
                        "visit.toml line 25: captures[2].file: ",
                        "is missing"),
                new Broken(
                        "file is not there",
                        delete("c02.wav"),
                        "visit.toml line 26: captures[2].file: ",
                        "there is no file \"c02.wav\""),
                new Broken(
                        "file given twice",
                        visit("c02.wav", "c01.wav"),
                        "visit.toml line 26: captures[2].file: ",
                        "\"c01.wav\" appears twice"),
                new Broken(
                        "absolute name",
                        visit("c02.wav", "/etc/passwd"),
                        "visit.toml line 26: captures[2].file: ",
                        "\"/etc/passwd\" is no plain file name"),
                new Broken(
                        "name that climbs out",
                        visit("c02.wav", "../c02.wav"),
                        "visit.toml line 26: captures[2].file: ",
                        "is no plain file name"),
                new Broken(
                        "name of the folder above",
                        visit("c02.wav", ".."),
                        "visit.toml line 26: captures[2].file: ",
                        "is no plain file name"),
                new Broken(
                        "name with a drive",
                        visit("c02.wav", "C:\\\\c02.wav"),
                        "visit.toml line 26: captures[2].file: ",
                        "is no plain file name"),
                new Broken(
                        "name with a NUL",
                        visit("c02.wav", "c02.wav\\u0000"),
                        "visit.toml line 26: captures[2].file: ",
                        "control character"),
                new Broken(
                        "link that leaves the folder",
                        d -> {
                            Path outside = d.resolveSibling("outside.wav");
                            Files.move(d.resolve("c02.wav"), outside);
                            Files.createSymbolicLink(d.resolve("c02.wav"), outside);
                        },
                        "visit.toml line 26: captures[2].file: ",
                        "link that leaves the folder"),
                new Broken(
                        "file is a folder",
                        d -> {
                            Files.delete(d.resolve("c02.wav"));
                            Files.createDirectory(d.resolve("c02.wav"));
                        },
                        "visit.toml line 26: captures[2].file: ",
                        "regular file"),
                new Broken(
                        "scale below 0",
                        visit("50.0", "-1.0"),
                        "visit.toml line 9: captures[1].scale_mps2: ",
                        "-1 is not above 0; give m/s² per full scale"),
                new Broken(
                        "two speed sources",
                        visit("obd =", "rpm = \"c02.obd.csv\"\nobd ="),
                        "visit.toml line 27: captures[2].rpm: ",
                        "give at most one of tach, obd, rpm"),
                new Broken(
                        "tach is not there",
                        delete("c01.tach.csv"),
                        "visit.toml line 10: captures[1].tach: ",
                        "there is no file"),
                new Broken(
                        "tach outside the folder",
                        visit("c01.tach.csv", "../c01.tach.csv"),
                        "visit.toml line 10: captures[1].tach: ",
                        "is no plain file name"),
                new Broken(
                        "no pulse per turn",
                        visit("pulses_per_turn = 1", "pulses_per_turn = 0"),
                        "visit.toml line 11: captures[1].pulses_per_turn: ",
                        "1 or more"),
                new Broken(
                        "tach on no pulley",
                        visit("tach_pulley = \"crank\"", "tach_pulley = \"flywheel\""),
                        "visit.toml line 12: captures[1].tach_pulley: ",
                        "give one of crank, idler, alternator"),
                new Broken(
                        "point is no text",
                        visit("\"alternator\"", "3"),
                        "visit.toml line 13: captures[1].point: ",
                        "where the probe stood"),
                new Broken(
                        "point at an injector too many",
                        visit("\"alternator\"", "\"injector-5\""),
                        "visit.toml line 13: captures[1].point: ",
                        "no injector 5 on 4 cylinders"),
                new Broken(
                        "unknown mount",
                        visit("\"hand\"", "\"glue\""),
                        "visit.toml line 15: captures[1].mount: ",
                        "give one of hand, magnet, adhesive, stud"),
                new Broken(
                        "unknown regime",
                        visit("\"idle\"", "\"revving\""),
                        "visit.toml line 16: captures[1].regime: ",
                        "give one of idle, hold, sweep"),
                new Broken(
                        "unknown key of a capture",
                        visit("mount =", "mounted ="),
                        "visit.toml line 15: captures[1].mounted: ",
                        "unknown key"),
                new Broken(
                        "aircon is a word",
                        visit("aircon = true", "aircon = \"on\""),
                        "visit.toml line 18: captures[1].condition.aircon: ",
                        "give true or false"),
                new Broken(
                        "unknown gear",
                        visit("\"drive\"", "\"reverse\""),
                        "visit.toml line 19: captures[1].condition.gear: ",
                        "give one of neutral, drive"),
                new Broken(
                        "unknown belt state",
                        visit("belt = \"on\"", "belt = \"loose\""),
                        "visit.toml line 22: captures[1].condition.belt: ",
                        "give one of on, off"),
                new Broken(
                        "injector too many",
                        visit("injector_off = 2", "injector_off = 5"),
                        "visit.toml line 23: captures[1].condition.injector_off: ",
                        "from 1 to 4"),
                new Broken(
                        "unknown problem",
                        visit("\"missing-samples\"", "\"hissing\""),
                        "visit.toml line 30: captures[2].quality[1].problem: ",
                        "give one of clipped, lost-contact, knock"),
                new Broken(
                        "problem that only the analysis can tell",
                        visit("\"missing-samples\"", "\"too-few-turns\""),
                        "visit.toml line 30: captures[2].quality[1].problem: ",
                        "is not known"),
                new Broken(
                        "no problem",
                        visit("problem = \"missing-samples\"\n", ""),
                        "visit.toml line 29: captures[2].quality[1].problem: ",
                        "is missing"),
                new Broken(
                        "quality before the first sample",
                        visit("from_s = 0.02", "from_s = -0.02"),
                        "visit.toml line 31: captures[2].quality[1].from_s: ",
                        "-0.02 is below 0"),
                new Broken(
                        "quality that ends before it begins",
                        visit("to_s = 0.03", "to_s = 0.02"),
                        "visit.toml line 32: captures[2].quality[1].to_s: ",
                        "0.02 is not after from_s, 0.02"),
                new Broken(
                        "quality without an end",
                        visit("to_s = 0.03\n", ""),
                        "visit.toml line 29: captures[2].quality[1].to_s: ",
                        "or leave out from_s too"),
                new Broken(
                        "quality without a beginning",
                        visit("from_s = 0.02\n", ""),
                        "visit.toml line 29: captures[2].quality[1].from_s: ",
                        "or leave out to_s too"),
                new Broken(
                        "quality at a word",
                        visit("from_s = 0.02", "from_s = \"early\""),
                        "visit.toml line 31: captures[2].quality[1].from_s: ",
                        "the seconds from the first sample"),
                new Broken(
                        "quality in two lines",
                        visit("80 samples were", "80 samples\\nwere"),
                        "visit.toml line 33: captures[2].quality[1].text: ",
                        "control character"),
                new Broken(
                        "unknown key of a quality",
                        visit("text = ", "words = "),
                        "visit.toml line 33: captures[2].quality[1].words: ",
                        "unknown key"),
                new Broken(
                        "quality is no list",
                        visit("[[captures.quality]]", "[captures.quality]"),
                        "visit.toml line 29: captures[2].quality: ",
                        "a list of tables"),
                new Broken(
                        "pulley with the name engine",
                        vehicle("name = \"idler\"", "name = \"engine\""),
                        "vehicle.toml line ",
                        "is a word for something else in findings"),
                new Broken(
                        "pulley with the name none",
                        vehicle("name = \"idler\"", "name = \"none\""),
                        "vehicle.toml line ",
                        "is a word for something else in findings"),
                new Broken(
                        "pulley with the name valve-train",
                        vehicle("name = \"idler\"", "name = \"valve-train\""),
                        "vehicle.toml line ",
                        "is a word for something else in findings"),
                new Broken(
                        "pulley with the name injector-2",
                        vehicle("name = \"idler\"", "name = \"injector-2\""),
                        "vehicle.toml line ",
                        "is a word for something else in findings"),
                new Broken(
                        "pulley with the name belt:main",
                        vehicle("name = \"idler\"", "name = \"belt:main\""),
                        "vehicle.toml line ",
                        "is a word for something else in findings"),
                new Broken(
                        "unknown condition",
                        visit("aircon", "heater"),
                        "visit.toml line 18: captures[1].condition.heater: ",
                        "unknown key"));
    }

    private static List<Broken> csvs() {
        return List.of(
                new Broken("empty CSV", whole("c01.tach.csv", ""), "c01.tach.csv: ", "is empty"),
                new Broken(
                        "header alone",
                        whole("c01.tach.csv", "time_s\n"),
                        "c01.tach.csv: ",
                        "has no row after its header"),
                new Broken(
                        "no header",
                        whole("c01.tach.csv", "0.1\n0.2\n"),
                        "c01.tach.csv row 1: ",
                        "the header is \"0.1\"; give time_s"),
                new Broken(
                        "semicolons",
                        whole("c02.obd.csv", "time_s;rpm\n0,1;800\n"),
                        "c02.obd.csv row 1: ",
                        "give time_s,rpm"),
                new Broken(
                        "tach header on readings",
                        whole("c02.obd.csv", "time_s\n0.1\n"),
                        "c02.obd.csv row 1: ",
                        "give time_s,rpm"),
                new Broken(
                        "times that run backwards",
                        whole("c01.tach.csv", "time_s\n0.1\n0.3\n0.2\n"),
                        "c01.tach.csv row 4: ",
                        "time_s goes back from 0.3 to 0.2"),
                new Broken(
                        "cell that is no number",
                        whole("c02.obd.csv", "time_s,rpm\n0.1,800\n0.2,fast\n"),
                        "c02.obd.csv row 3: ",
                        "rpm is \"fast\""),
                new Broken(
                        "cell that is NaN",
                        whole("c01.tach.csv", "time_s\nNaN\n"),
                        "c01.tach.csv row 2: ",
                        "time_s is \"NaN\""),
                new Broken(
                        "cell that is too large for a number",
                        whole("c01.tach.csv", "time_s\n1e999\n"),
                        "c01.tach.csv row 2: ",
                        "time_s is \"1e999\""),
                new Broken(
                        "row too short",
                        whole("c02.obd.csv", "time_s,rpm\n0.1\n"),
                        "c02.obd.csv row 2: ",
                        "has 1 cell"),
                new Broken(
                        "decimal commas",
                        whole("c02.obd.csv", "time_s,rpm\n0,1,800\n"),
                        "c02.obd.csv row 2: ",
                        "has 3 cells"),
                new Broken(
                        "speed below 0",
                        whole("c02.obd.csv", "time_s,rpm\n0.1,-800\n"),
                        "c02.obd.csv row 2: ",
                        "rpm is -800.0"));
    }

    /** Offsets in the plain header of c01.wav: fmt at 12, data at 36. */
    private static List<Broken> wavs() {
        return List.of(
                new Broken("WAV of no bytes", cut("c01.wav", 0), "c01.wav: ", "it holds 0 bytes"),
                new Broken(
                        "no WAV",
                        whole("c01.wav", "this is a text, not a recording of anything at all"),
                        "c01.wav: ",
                        "is no RIFF WAVE file"),
                new Broken(
                        "WAV cut short",
                        cut("c01.wav", 1000),
                        "c01.wav: ",
                        "its header claims 1644 bytes, but the file holds 1000"),
                new Broken(
                        "data chunk claims more than the file holds",
                        patch("c01.wav", 40, 4, 1602),
                        "c01.wav: ",
                        "its \"data\" chunk claims 1602 bytes, but the file holds 1600"),
                new Broken(
                        "data chunk of a stream",
                        patch("c01.wav", 40, 4, -1),
                        "c01.wav: ",
                        "claims 4294967295 bytes"),
                new Broken(
                        "no samples", patch("c01.wav", 40, 4, 0), "c01.wav: ", "holds 0 samples"),
                new Broken(
                        "half a sample",
                        patch("c01.wav", 40, 4, 1599),
                        "c01.wav: ",
                        "end in the middle of one"),
                new Broken(
                        "no data chunk",
                        patch("c01.wav", 36, 4, 0x6b6e756a),
                        "c01.wav: ",
                        "has no data chunk"),
                new Broken(
                        "no format",
                        patch("c01.wav", 12, 4, 0x6b6e756a),
                        "c01.wav: ",
                        "has no fmt chunk"),
                new Broken(
                        "sample rate of 0",
                        patch("c01.wav", 24, 4, 0),
                        "c01.wav: ",
                        "sample rate is 0 Hz"),
                new Broken(
                        "eight bits",
                        patch("c01.wav", 34, 2, 8),
                        "c01.wav: ",
                        "holds PCM of 8 bits"),
                new Broken(
                        "five channels", patch("c01.wav", 22, 2, 5), "c01.wav: ", "has 5 channels"),
                new Broken(
                        "a float sample that is no number",
                        dir -> {
                            int data = (int) Files.size(dir.resolve("c02.wav")) - 800 * 12;
                            patch("c02.wav", data + 12 * 17 + 4, 4, 0x7f800000).apply(dir);
                        },
                        "c02.wav sample 17: ",
                        "is Infinity in channel 2"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("table")
    void isRefusedInOneSentenceAndLeavesNoTrace(Broken broken) throws IOException {
        Path dir = Folders.good(temp.resolve("visit"));
        broken.breaking().apply(dir);
        try (Log log = Log.open(temp.resolve("data"))) {
            List<String> before = Folders.tree(temp.resolve("data"));
            String message =
                    assertThrows(
                                    VisitFolderException.class,
                                    () -> log.importVisit(VisitFolder.read(dir)))
                            .getMessage();
            assertTrue(
                    message.startsWith(broken.place()) && message.contains(broken.fragment()),
                    message);
            assertEquals(1, message.lines().count(), message);
            assertTrue(message.length() < 400, message);
            assertEquals(List.of(), log.visits());
            assertEquals(before, Folders.tree(temp.resolve("data")));
        }
    }

    @Test
    void aFolderThatIsNotThereIsNamed() {
        Path missing = temp.resolve("missing");
        String message =
                assertThrows(VisitFolderException.class, () -> VisitFolder.read(missing))
                        .getMessage();
        assertTrue(message.startsWith(missing + ": there is no such folder"), message);
    }

    @Test
    void everyKindOfBreakingIsItsOwn() {
        long names = table().stream().map(Broken::name).distinct().count();
        assertEquals(table().size(), names);
        assertTrue(names >= 45, "only " + names);
    }
}
