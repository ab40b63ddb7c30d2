package tickover.store;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import tickover.align.SpeedReadings;
import tickover.align.TachPulses;

/**
 * Reads the CSV files of pulse times and speed readings. Rows are counted as a sheet shows them.
 */
final class SpeedCsv {
    private static final int LIMIT_BYTES = 1 << 28;
    private static final List<String> TACH = List.of("time_s");
    private static final List<String> SPEED = List.of("time_s", "rpm");
    private static final Pattern NUMBER =
            Pattern.compile("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d+)?");

    private final String file;
    private final List<String> header;
    private final double[][] columns;
    private int rows;

    private SpeedCsv(String file, List<String> header) {
        this.file = file;
        this.header = header;
        this.columns = new double[header.size()][64];
    }

    /**
     * Reads pulse times.
     *
     * @param path the file
     * @param pulsesPerTurn marks on the part
     * @param turnsPerCrankTurn turns of the marked part per crank turn
     * @return the pulses
     * @throws VisitFolderException if the file is not as it should be
     */
    static TachPulses tach(Path path, int pulsesPerTurn, double turnsPerCrankTurn) {
        SpeedCsv csv = read(path, TACH);
        return new TachPulses(csv.column(0), pulsesPerTurn, turnsPerCrankTurn);
    }

    /**
     * Reads speed readings.
     *
     * @param path the file
     * @param lagUnknown true for an OBD adapter's
     * @return the readings
     * @throws VisitFolderException if the file is not as it should be
     */
    static SpeedReadings speeds(Path path, boolean lagUnknown) {
        SpeedCsv csv = read(path, SPEED);
        return new SpeedReadings(csv.column(0), csv.column(1), lagUnknown);
    }

    private double[] column(int index) {
        return Arrays.copyOf(columns[index], rows);
    }

    private static SpeedCsv read(Path path, List<String> header) {
        SpeedCsv csv = new SpeedCsv(String.valueOf(path.getFileName()), header);
        String text = FolderText.read(csv.file, path, LIMIT_BYTES);
        try (CsvReader<CsvRecord> reader =
                CsvReader.builder()
                        .allowExtraFields(true)
                        .allowMissingFields(true)
                        .ofCsvRecord(text)) {
            boolean first = true;
            for (CsvRecord row : reader) {
                if (first) {
                    csv.requireHeader(row);
                } else {
                    csv.add(row);
                }
                first = false;
            }
            if (first) {
                throw new VisitFolderException(
                        csv.file, "is empty; give a first row " + String.join(",", header));
            }
        } catch (CsvParseException e) {
            throw new VisitFolderException(csv.file, "is not CSV: " + e.getMessage(), e);
        } catch (UncheckedIOException e) {
            throw new VisitFolderException(
                    csv.file, "cannot be read: " + Wording.reason(e.getCause()), e);
        } catch (IOException e) {
            throw new VisitFolderException(csv.file, "cannot be read: " + Wording.reason(e), e);
        }
        if (csv.rows == 0) {
            throw new VisitFolderException(
                    csv.file, "has no row after its header; leave the file out of visit.toml then");
        }
        return csv;
    }

    private void requireHeader(CsvRecord row) {
        if (!row.getFields().stream().map(String::strip).toList().equals(header)) {
            throw wrong(
                    row,
                    "the header is "
                            + Wording.quoted(String.join(",", row.getFields()))
                            + "; give "
                            + String.join(",", header));
        }
    }

    private void add(CsvRecord row) {
        if (row.getFieldCount() != header.size()) {
            throw wrong(
                    row,
                    "has "
                            + row.getFieldCount()
                            + (row.getFieldCount() == 1 ? " cell" : " cells")
                            + "; give "
                            + String.join(",", header)
                            + ", with decimal points");
        }
        if (rows == columns[0].length) {
            for (int c = 0; c < columns.length; c++) {
                columns[c] = Arrays.copyOf(columns[c], 2 * rows);
            }
        }
        for (int c = 0; c < columns.length; c++) {
            columns[c][rows] = number(row, c);
        }
        double timeS = columns[0][rows];
        if (rows > 0 && timeS < columns[0][rows - 1]) {
            throw wrong(
                    row,
                    "time_s goes back from "
                            + columns[0][rows - 1]
                            + " to "
                            + timeS
                            + "; times have to rise");
        }
        if (header.size() > 1 && columns[1][rows] < 0) {
            throw wrong(row, "rpm is " + columns[1][rows] + "; give a speed of 0 or more");
        }
        rows++;
    }

    private double number(CsvRecord row, int c) {
        String cell = row.getField(c).strip();
        double value = NUMBER.matcher(cell).matches() ? Double.parseDouble(cell) : Double.NaN;
        if (!Double.isFinite(value)) {
            throw wrong(
                    row,
                    header.get(c)
                            + " is "
                            + Wording.quoted(cell)
                            + "; give a number with a decimal point");
        }
        return value;
    }

    private VisitFolderException wrong(CsvRecord row, String sentence) {
        return new VisitFolderException(file + " row " + row.getStartingLineNumber(), sentence);
    }
}
