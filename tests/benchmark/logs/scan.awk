# Energy and means of a log: awk -f scan.awk FILE. Reads the time of day and the day of its own month
# alone, which is less than the others do: the log must not begin in one year and end in the next.
# Prints rows, energy [Wh], mean power [W], mean irradiance [W/m2], energy by the counter [Wh].
BEGIN {
  FS = ","
  split("0 31 59 90 120 151 181 212 243 273 304 334", before, " ")
}
NR > 1 {
  t = 86400 * (before[substr($1, 6, 2) + 0] + substr($1, 9, 2)) + 3600 * substr($1, 12, 2) + \
      60 * substr($1, 15, 2) + substr($1, 18, 2)
  if (n++) { energy += (t - last) * ($2 + power) * 0.5 } else { first = $5 }
  last = t
  power = $2
  p += $2
  g += $3
  counted = $5
}
END { printf "%d %.10g %.10g %.10g %.10g\n", n, energy / 3600, p / n, g / n, counted - first }
