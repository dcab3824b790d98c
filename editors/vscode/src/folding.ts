// Recipes and their sections fold.

import * as vscode from "vscode";

import { folds } from "./recipes";
import { linesIn } from "./document";

export const provider: vscode.FoldingRangeProvider = {
  provideFoldingRanges: (document) => folds(linesIn(document)).map(([start, end]) => new vscode.FoldingRange(start, end)),
};
