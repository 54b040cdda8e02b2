import { shown } from "../table/faults";
import { AvailabilitySets } from "./availability-sets";
import { ByteLabels } from "./byte-labels";
import type { Fields, PoolColumn } from "./fields";
import { IntList } from "./int-list";

/** A number that stands for no label: an outing without a region, a box without a code. */
export const NO_LABEL = -1;

/** The outings read so far, and what all boxes of an outing share. */
export class Outings {
  readonly names = new ByteLabels();
  readonly growers = new ByteLabels();
  readonly bands = new ByteLabels();
  readonly regions = new ByteLabels();
  readonly availability = new AvailabilitySets();
  /** By outing: the line that told of it first, and what that line said. */
  readonly #line = new IntList();
  readonly #grower = new IntList();
  readonly #band = new IntList();
  readonly #region = new IntList();
  readonly #available = new IntList();

  /** The number of the record's outing, or null after a fault where the record contradicts an earlier one. */
  numberOf(fields: Fields): number | null {
    const outing = fields.numberIn(this.names, "outing");
    const grower = fields.numberIn(this.growers, "grower");
    const band = fields.numberIn(this.bands, "band");
    const region = fields.isEmpty("region") ? NO_LABEL : fields.numberIn(this.regions, "region");
    const available = fields.numberIn(this.availability, "available");
    if (outing === this.#line.length) {
      this.#line.push(fields.line);
      this.#grower.push(grower);
      this.#band.push(band);
      this.#region.push(region);
      this.#available.push(available);
      return outing;
    }
    if (
      this.#grower.at(outing) === grower &&
      this.#band.at(outing) === band &&
      this.#region.at(outing) === region &&
      this.#available.at(outing) === available
    ) {
      return outing;
    }
    const { growers, bands, regions, availability } = this;
    const refuseOther = (
      name: PoolColumn,
      first: number,
      here: number,
      textOf: (one: number) => string,
    ): void => {
      if (first !== here) this.#refuse(fields, outing, name, first === NO_LABEL ? "" : textOf(first));
    };
    refuseOther("grower", this.#grower.at(outing), grower, (one) => growers.text(one));
    refuseOther("band", this.#band.at(outing), band, (one) => bands.text(one));
    refuseOther("region", this.#region.at(outing), region, (one) => regions.text(one));
    refuseOther("available", this.#available.at(outing), available, (one) => availability.labels[one]!);
    return null;
  }

  /** By outing. */
  get facts(): Readonly<Record<"grower" | "band" | "region" | "availability", Int32Array>> {
    return {
      grower: this.#grower.view(),
      band: this.#band.view(),
      region: this.#region.view(),
      availability: this.#available.view(),
    };
  }

  #refuse(fields: Fields, outing: number, name: PoolColumn, first: string): void {
    const fact = name === "available" ? "arms available" : name;
    fields.refuse(
      "outings that contradict an earlier line",
      name,
      (here) =>
        `Outing ${shown(this.names.text(outing))} has the ${fact} ${here} here and ${shown(first)} in line ` +
        `${this.#line.at(outing)}. An outing is one grower at one place on one day: give different outings ` +
        "different names.",
    );
  }
}
